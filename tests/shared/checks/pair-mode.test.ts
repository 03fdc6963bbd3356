import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { both, either } from "../../support/models.ts";

const site = (model: string, name: string, entry: string) => mullion`
  ${model}
  holder u1 "Unit 1"
    code 4829
    tag 8061261
  keypad gate "Gate" : ${name} {
    installer code 6044
    relay 1 "Gate" {
      ${entry}
    }
  }
`;

test("the other mode is changed to the model's", () => {
  checkFix(site(either, "either", "01 u1 with u1.tag"), "pair-mode", "Change to or", site(either, "either", "01 u1 or u1.tag"));
  checkFix(site(both, "both", "01 u1.tag or u1"), "pair-mode", "Change to with", site(both, "both", "01 u1.tag with u1"));
});

test("half a pair where both are needed opens nothing", () => {
  const findings = checkFindings(mullion`
    ${both}
    holder u1 "Unit 1" code 4829 tag 8061261
    holder u2 "Unit 2" code 5591
    keypad gate "Gate" : both {
      installer code 6044
      relay 1 "Gate" {
        01 u1 with u1.tag
        02 u2
      //^^^^^ pair-mode
      }
    }
  `);
  expect(findings[0]?.message).toBe("on both a code and a tag are both needed; this half alone opens nothing");
});

test("where either opens, one of the two is enough, and two codes are no pair", () => {
  checkFindings(mullion`
    ${either}
    holder u1 "Unit 1" code 4829 tag 8061261
    holder u2 "Unit 2" code 5591
    keypad gate "Gate" : either {
      installer code 6044
      relay 1 "Gate" {
        01 u1 or u2
            //^^ pair-mode
        02 u1.tag
      }
    }
  `);
});

test("in a record", () => {
  checkFindings(mullion`
    ${either}
    keypad gate "Gate" : either {
      installer code 6044
      relay 1 spare
    }
    fitted gate 2026-11-20 {
      relay 1 {
        01 code 4829 with tag 8061261
      //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ pair-mode
      }
    }
  `);
});
