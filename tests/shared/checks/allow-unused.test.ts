import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("nothing there, no reason, no such finding, an error that may not be allowed", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1" code 4829 // allow weak-code: it is not weak
                               //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ allow-unused
    holder u2 "Unit 2" code 5591 // allow holder-idle
                     //^^^^^^^^^ holder-idle
                               //^^^^^^^^^^^^^^^^^^^^ allow-unused
    // allow slot-crash: no such name
  //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ allow-unused
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1
        4 u1 // allow slot-range: the keypad is larger than it says
      //^ slot-range
        //^^ code-clash
           //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ allow-unused
      }
    }
  `);
  expect(findings.filter(({ code }) => code === "allow-unused").map(({ message }) => message)).toEqual([
    "nothing to allow here: there is no weak-code on the line it speaks of",
    "an allowance needs a reason: // allow holder-idle: why",
    "nothing to allow here: there is no slot-crash on the line it speaks of",
    "slot-range is an error here and may not be allowed",
  ]);
});

test("one allowance takes every finding of its name on the line, and none on the next", () => {
  checkFindings(mullion`
    // allow holder-idle: both move in later
    holder u1 "Unit 1" code 4829 tag 8061261
    holder u2 "Unit 2" code 5591
                     //^^^^^^^^^ holder-idle
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 spare
    }
  `);
});

test("is taken out with its line, or from the end of one", () => {
  const site = (above: string, behind: string) => mullion`
    holder u1 "Unit 1" code 4829${behind}
    ${above}
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" { 1 u1 }
    }
  `;
  checkFix(site("", " // allow weak-code: x"), "allow-unused", "Remove the allowance", site("", ""));
  checkFix(site("// allow weak-code: x", ""), "allow-unused", "Remove the allowance", site("", "").replace(/\n +\n/, "\n"));
});
