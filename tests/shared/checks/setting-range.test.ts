import { test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { running, two } from "../../support/models.ts";

test("release times: too long, none at all, and until keyed again where the keypad has it", () => {
  checkFindings(mullion`
    ${two}
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 5591
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" release 100s { 01 u1 }
                        //^^^^^^^^^^^^ setting-range
      relay 2 "Vehicle gate" release toggle { 01 u2 }
    }
    keypad back "Back" : two {
      installer code 6044
      relay 1 "Back" release 0s { 01 u1 }
                   //^^^^^^^^^^ setting-range
      relay 2 spare
    }
  `);
  checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" release toggle { 1 u1 }
                   //^^^^^^^^^^^^^^ setting-range
    }
  `);
});

test("settings, in the text and in the record", () => {
  checkFindings(mullion`
    ${running}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : running {
      installer code 6044
      setting "key light" 3
                        //^ setting-range
      relay 1 "Gate" { 01 u1 }
    }
    fitted gate 2026-11-20 {
      installer code 6044
      setting "key light" 4
                        //^ setting-range
    }
  `);
});
