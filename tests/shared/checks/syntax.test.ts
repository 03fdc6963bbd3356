import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("five slips are five findings, and the rest is understood", () => {
  checkFindings(mullion`
    holder u1 "Unit 1" code
                         //^ syntax
    holder u2 "Unit 2" code 5591
    holder "Unit 3" code 7304
        //^ syntax
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" release {
                          //^ syntax
        1 u2
        2
       //^ syntax
        9 u2
      //^ slot-range
        //^^ code-clash
      }
      setting "key light"
            //^^^^^^^^^^^ name-unknown
                       //^ syntax
    }
  `);
});

test("a slip holds back the keypad that it touches, and no other", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1
        2
       //^ syntax
      }
    }
    keypad back "Back" : tiny {
      installer code 6044
      relay 1 "Back" {
        1 u1
      }
    }
  `);
  expect(findings.map(({ keypads }) => keypads)).toEqual([["gate"]]);
});

test("a slip in a holder touches the keypads where the holder is placed", () => {
  const [finding] = checkFindings(mullion`
    holder u1 "Unit 1" code 4829 tag
                                  //^ syntax
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" { 1 u1 }
    }
    keypad back "Back" : tiny {
      installer code 6044
      relay 1 spare
    }
  `);
  expect(finding?.keypads).toEqual(["gate"]);
});
