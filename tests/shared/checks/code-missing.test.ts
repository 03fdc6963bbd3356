import { expect, test } from "vitest";
import { checkFix, fixesIn } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { two } from "../../support/models.ts";

test("in a slot, as an installer code, as an all-relay code", () => {
  const findings = checkFindings(mullion`
    ${two}
    holder u1 "Unit 1" code yard 4829
    holder u2 "Unit 2" tag 8061261
    holder u3 "Unit 3"
    keypad gate "Gate" : two {
      installer code u3
                   //^^ code-missing
      all-relay code u2
                   //^^ code-missing
      relay 1 "Foot gate" {
        01 u1
         //^^ code-missing
        02 u1.gate
            //^^^^ code-missing
        03 u2.code
            //^^^^ code-missing
        04 u1.yard
        05 u2
      }
      relay 2 spare
    }
  `);
  expect(findings.map(({ message }) => message)).toEqual([
    "Unit 3 has no code and no tag",
    "an all-relay code is a code; Unit 2 has a tag under this name",
    "Unit 1 has no code and no tag without a name; say which of the named ones is meant",
    "Unit 1 has no code and no tag called gate",
    "Unit 2 has no code without a name",
  ]);
});

test("a name that is still to be typed behind the dot is no missing code", () => {
  checkFindings(mullion`
    holder u1 "Unit 1" code yard 4829
                     //^^^^^^^^^^^^^^ holder-idle
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1.
           //^ syntax
      }
    }
  `);
});

test("one of those that the holder has, or a new one", () => {
  const site = (entry: string) => mullion`
    holder u1 "Unit 1"
      code yard 4829
      tag 8061261
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1.tag
        2 ${entry}
      }
    }
  `;
  checkFix(site("u1.gate"), "code-missing", "Use u1.yard", site("u1.yard"));
  expect(fixesIn(site("u1.gate"), "code-missing").map(({ fix }) => fix.draws)).toEqual([undefined, undefined, "u1.gate"]);
});
