import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { checkFindings, mullion, siteOf, today } from "../../support/fixture.ts";

const gate = mullion`
  holder u1 "Unit 1" code 4829
  keypad gate "Gate" : tiny {
    installer code 6044
    relay 1 "Foot gate" release 5s { 1 u1 }
  }
`;
const decides = "local code, the maker's instructions and a competent person decide";

test("low at the end of the battery, high on mains: each with its sum and its limit", () => {
  const findings = checkFindings(mullion`
    ${gate}
    door "Foot gate" {
      lock strike 12 V 350 mA fail-secure
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ lock-volts
      cable 28 m 0.75 mm2
    }
    supply low "Riser cupboard" 13.6 V 3 A {
      battery 12 V 7 Ah for 4 h
      feeds "Foot gate"
    }
  `);
  expect(findings.map(({ message }) => message)).toEqual([
    `the strike of Foot gate gets 10.32 V at the end of the battery, less than 10.8 V, its rated 12 V less 10 % (10.8 V less 0.48 V over 2 × 28 m of 0.75 mm² at 20 °C at 350 mA); assumed: 10 % either way of the rated voltage, the same current at any voltage, copper of class 1 or 2, 20 °C, nothing else on the cable, 1.8 V a cell of 2 V at the end of the battery, a supply that keeps its voltage under load; ${decides}`,
  ]);
  expect(findings[0]?.related.map(({ message }) => message)).toEqual(["Riser cupboard feeds it", "the cable"]);
  const high = checkFindings(mullion`
    ${gate}
    door "Foot gate" {
      lock strike 12 V 350 mA fail-secure resistive
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ lock-volts
      cable 28 m 0.75 mm2
    }
    supply high "Riser cupboard" 13.8 V 3 A {
      feeds "Foot gate"
    }
  `);
  // A coil of 12 / 0.35 = 34.29 Ω behind 1.372 Ω: 13.8 V × 34.29 / 35.66 = 13.27 V at 387 mA.
  expect(high.map(({ message }) => message)).toEqual([
    `the strike of Foot gate gets 13.27 V on mains, more than 13.2 V, its rated 12 V and 10 % (13.8 V less 0.53 V over 2 × 28 m of 0.75 mm² at 20 °C at 387 mA, a plain coil); assumed: 10 % either way of the rated voltage, copper of class 1 or 2, 20 °C, nothing else on the cable, a supply that keeps its voltage under load; ${decides}`,
  ]);
});

test("on mains where there is no battery; without the cable by the supply's own volts", () => {
  const low = checkFindings(mullion`
    ${gate}
    door "Foot gate" {
      lock bolt 24 V 350 mA fail-secure
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ lock-volts
    }
    supply low "Riser cupboard" 12 V 3 A { feeds "Foot gate" }
  `);
  expect(low.map(({ message }) => message)).toEqual([
    `the bolt of Foot gate gets 12 V on mains, less than 21.6 V, its rated 24 V less 10 %, the cable not counted; assumed: 10 % either way of the rated voltage; ${decides}`,
  ]);
});

test("an a.c. lock on a supply that can only be d.c.", () => {
  const findings = checkFindings(mullion`
    ${gate}
    door "Foot gate" {
      lock strike 12 V AC 350 mA fail-secure
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ lock-volts
      cable 28 m 0.75 mm2
    }
    supply low "Riser cupboard" 13.8 V 3 A {
      battery 12 V 7 Ah
      feeds "Foot gate"
    }
  `);
  expect(findings.map(({ message }) => message)).toEqual([
    `the strike of Foot gate asks for 12 V a.c., and Riser cupboard has a battery and so is d.c.; ${decides}`,
  ]);
});

test("a d.c. lock on an a.c. supply; one that says neither takes what it gets", () => {
  const findings = checkFindings(mullion`
    ${gate}
    door "Foot gate" {
      lock strike DC 350 mA fail-secure
    //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ lock-volts
    }
    supply bell "Transformer" 12 V AC 1 A { feeds "Foot gate" }
  `);
  expect(findings.map(({ message }) => message)).toEqual([`the strike of Foot gate asks for d.c., and Transformer is a.c.; ${decides}`]);
  checkFindings(mullion`
    ${gate}
    door "Foot gate" { lock strike 12 V 350 mA fail-secure }
    supply bell "Transformer" 12 V AC 1 A { feeds "Foot gate" }
  `);
});

test("too few at the end of the battery and too many on mains are two findings of one lock", () => {
  const site = siteOf(mullion`
    ${gate}
    door "Foot gate" {
      lock strike 12 V 350 mA fail-secure
      cable 28 m 0.75 mm2
    }
    supply low "Riser cupboard" 13.8 V 3 A {
      battery 12 V 7 Ah
      feeds "Foot gate"
    }
  `);
  const messages = findingsOf(site, { today }).map(({ message }) => message.slice(0, message.indexOf(", its")));
  expect(messages).toEqual([
    "the strike of Foot gate gets 10.32 V at the end of the battery, less than 10.8 V",
    "the strike of Foot gate gets 13.32 V on mains, more than 13.2 V",
  ]);
});

test("exactly at a limit is within it; a start contact has its operator's volts; an a.c. lock may have an a.c. supply", () => {
  checkFindings(mullion`
    ${gate}
    keypad yard "Yard" : tiny {
      installer code 6045
      relay 1 "Yard gate" release 1s { 1 u1 }
    }
    keypad back "Back" : tiny {
      installer code 6046
      relay 1 "Back" release 5s { 1 u1 }
    }
    door "Foot gate" {
      lock strike 12 V 500 mA fail-secure within 20 %
      cable 10 m 22 AWG at 60 C
    }
    door "Yard gate" { lock start contact 24 V 20 mA stays }
    door "Back" {
      lock strike 12 V AC 500 mA fail-secure
      cable 10 m 1.5 mm2
    }
    supply low "Riser cupboard" 13.2 V 3 A {
      battery 12 V 7 Ah down to 10.8 V
      feeds "Foot gate", "Yard gate"
    }
    supply bell "Transformer" 12 V AC 1 A { feeds "Back" }
  `);
  checkFindings(mullion`
    ${gate}
    door "Foot gate" {
      lock strike 12 V 350 mA fail-secure
      cable 0.001 m 2.5 mm2
    }
    supply low "Riser cupboard" 13.2 V 3 A { feeds "Foot gate" }
  `);
});
