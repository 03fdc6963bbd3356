import { test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("a relay that toggles on an escape route; two seconds on a start contact are not long", () => {
  checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Stair" release toggle {
                    //^^^^^^^^^^^^^^ release-long
                    //^^^^^^^^^^^^^^ setting-range
        1 u1
      }
    }
    keypad yard "Yard" : tiny {
      installer code 6045
      relay 1 "Yard gate" release 2s { 1 u1 }
    }
    door "Stair" {
      lock strike 12 V 350 mA fail-safe
      route escape
    }
    door "Yard gate" { lock start contact stays }
  `);
});
