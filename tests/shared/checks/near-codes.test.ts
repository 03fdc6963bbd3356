import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

const two = `
      model two "Two relays" {
        relays 1 = 1, 2 = 2
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        put code 1 {relay} {slot} {code} #
        clear slot 2 {relay} {slot} #
        set installer 4 {code} {code} #
        set all-relay 3 {code} #
        clear all-relay 4 #
        open code {code}
        open all-relay {relay-number} {code}
        factory { installer code 9753 }
      }
`;

test("one digit apart on two doors, the other code related; the all-relay code counts", () => {
  const findings = checkFindings(mullion`
      ${two}
      holder mgr "Manager" code 4879
      holder u1 "Unit 1" code 4829
        //                    ^^^^ near-codes
      holder u2 "Unit 2" code 5591
      keypad gate "Gate" : two {
        installer code 6044
        all-relay code mgr
        relay 1 "Foot gate" {
          1 u1
        }
        relay 2 "Vehicle gate" {
          1 u2
        }
      }
  `);
  expect(findings[0]?.message).toBe(
    "Unit 1's code and Manager's code open different doors of Gate and differ in one digit only; 2 are wanted",
  );
  expect(findings[0]?.related.map(({ message }) => message)).toEqual(["Manager's code"]);
});

test("two relays that release one door are no mistake", () => {
  checkFindings(mullion`
      ${two}
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 4819
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
        relay 2 "Foot gate" {
          1 u2
        }
      }
  `);
});

test("three places where the policy wants them", () => {
  checkFindings(mullion`
      policy { near codes 3 digits }
      ${two}
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 4719
        //                    ^^^^ near-codes
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
        relay 2 "Vehicle gate" {
          1 u2
        }
      }
  `);
});

test("between fitted codes it is one hint a keypad", () => {
  const findings = checkFindings(mullion`
      ${two}
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 4819
      keypad gate "Gate" : two {
        //   ^^^^ near-codes
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
        relay 2 "Vehicle gate" {
          1 u2
        }
      }
      fitted gate 2026-11-20 {
        model two
        installer code 6044
        relay 1 {
          1 code 4829
        }
        relay 2 {
          1 code 4819
        }
      }
  `);
  expect(findings[0]?.severity).toBe("hint");
});
