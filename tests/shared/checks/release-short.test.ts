import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("says the seconds, the limit and who decides; a start contact may be short", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Stair" release 1s {
                    //^^^^^^^^^^ release-short
        1 u1
      }
    }
    keypad yard "Yard" : tiny {
      installer code 6045
      relay 1 "Yard gate" release 1s { 1 u1 }
    }
    door "Stair" {
      lock magnet 12 V 500 mA fail-safe
      release on alarm
    }
    door "Yard gate" { lock start contact stays }
  `);
  expect(findings[0]?.message).toBe(
    "the magnet of Stair is released for 1 s, less than the 3 s of IEC 60839-11-1: local code, the maker's instructions and a competent person decide",
  );
});
