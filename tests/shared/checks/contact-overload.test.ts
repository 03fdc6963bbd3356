import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

const wader = (contact: string) => mullion`
  model wader "Two relays" {
    relays 1 = 1, 2 = 2
    slots 1..3 per relay
    codes 4 digits
    ${contact}
    enter * {installer} #
    put code 1 {relay} {slot} {code} #
    clear slot 3 {relay} {slot} #
    set installer 4 {code} {code} #
    open code {code}
    factory { installer code 9753 }
  }
  holder u1 "Unit 1"
    code 4829
    code b 5591
  keypad gate "Gate" : wader {
    installer code 6044
    relay 1 "Foot gate" { 1 u1 }
    relay 2 "Yard" { 1 u1.b }
  }
`;
const decides =
  "; assumed: the contact's rating holds for the lock's kind of current; local code, the maker's instructions and a competent person decide";

test("current, inrush and volts, each with its limit; a coil's suppression", () => {
  const findings = checkFindings(mullion`
    ${wader("contact 1 A 24 V")}
    door "Foot gate" {
      lock bolt 12 V 1.2 A 3 A inrush fail-secure
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ contact-overload
    }
    door "Yard" {
      lock start contact 48 V AC 20 mA stays
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ contact-overload
    }
  `);
  expect(findings.map(({ message }) => message)).toEqual([
    `the bolt of Foot gate puts 1.2 A and 3 A of inrush on relay 1 of Gate, more than the 1 A 24 V that its contact is rated for; the coil needs suppression besides (a diode across it, as its maker says)${decides}`,
    `the start contact of Yard puts 48 V on relay 2 of Gate, more than the 1 A 24 V that its contact is rated for${decides}`,
  ]);
  expect(findings.map(({ related }) => related.map(({ message }) => message))).toEqual([
    ["the relay of Gate that switches it"],
    ["the relay of Gate that switches it"],
  ]);
});

test("what the supply puts on the contact counts; a coil takes more on mains than it is rated for", () => {
  const findings = checkFindings(mullion`
    ${wader("contact 1 A 13 V")}
    door "Foot gate" {
      lock bolt 12 V 0.98 A fail-secure resistive within 20 %
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ contact-overload
      cable 2 m 2.5 mm2
    }
    supply cupboard "Riser cupboard" 13.8 V 3 A { feeds "Foot gate" }
  `);
  // 12 / 0.98 = 12.24 Ω and 2 × 2 m × 7.41 Ω/km = 0.03 Ω: 13.8 V / 12.27 Ω = 1.124 A.
  expect(findings[0]?.message).toContain("puts 1.124 A and 13.8 V on relay 1 of Gate, more than the 1 A 13 V that");
});

test("at the limit is within it; a model that says nothing of its contacts is not judged", () => {
  checkFindings(mullion`
    ${wader("contact 1 A 12 V")}
    door "Foot gate" { lock bolt 12 V 1000 mA 1 A inrush fail-secure }
  `);
  checkFindings(mullion`
    ${wader("tags 24 bits")}
    door "Foot gate" { lock bolt 12 V 9 A fail-secure }
  `);
});
