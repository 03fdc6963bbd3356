import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("it holds back the keypads that have no record of their own", () => {
  const [finding] = checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" { 1 u1 }
    }
    keypad back "Back" : tiny {
      installer code 6044
      relay 1 "Back" { 1 u1 }
    }
    fitted back unknown
    fitted porch unknown
         //^^^^^ fitted-unknown-keypad
  `);
  expect(finding?.keypads).toEqual(["gate"]);
});

test("where every keypad has its record, a stray one holds back none", () => {
  const [finding] = checkFindings(mullion`
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 spare
    }
    fitted gate unknown
    fitted porch unknown
         //^^^^^ fitted-unknown-keypad
  `);
  expect(finding?.keypads).not.toContain("gate");
  expect(finding?.keypads).not.toEqual([]);
});

test("the record of a keypad that was given another name", () => {
  const site = (name: string) => mullion`
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 spare
    }
    fitted ${name} unknown
  `;
  checkFix(site("foot"), "fitted-unknown-keypad", "This is the record of gate", site("gate"));
});
