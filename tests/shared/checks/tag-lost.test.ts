import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { either } from "../../support/models.ts";

test("on each keypad where it is placed, with the place where it is called lost", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1" code 4829 tag bike 8061261 lost
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1
        2 u1.bike
        //^^^^^^^ tag-lost
      }
    }
    keypad back "Back" : tiny {
      installer code 6044
      relay 1 "Back" {
        1 u1.bike
        //^^^^^^^ tag-lost
      }
    }
  `);
  expect(findings.map(({ keypads }) => keypads)).toEqual([["gate"], ["back"]]);
  expect(findings[0]?.related).toHaveLength(1);
});

test("its half of a pair is taken out", () => {
  const site = (entry: string) => mullion`
    ${either}
    holder u1 "Unit 1" code 4829 tag 8061261 lost
    keypad gate "Gate" : either {
      installer code 6044
      relay 1 "Gate" {
        ${entry}
      }
    }
  `;
  checkFix(site("01 u1 or u1.tag"), "tag-lost", "Remove this half of the entry", site("01 u1"));
  checkFix(site("01 u1.tag or u1"), "tag-lost", "Remove this half of the entry", site("01 u1"));
});
