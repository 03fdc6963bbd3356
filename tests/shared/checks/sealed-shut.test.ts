import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { checkFindings, mullion, siteOf, today } from "../../support/fixture.ts";

test("a site that is sealed as a whole says so at its own place", () => {
  const findings = findingsOf(siteOf("//- main.mullion.age"), { today });
  expect(findings.map(({ code, file, start, severity }) => [code, file, start, severity])).toEqual([
    ["sealed-shut", "/main.mullion.age", 0, "information"],
  ]);
});

test("it holds back no other finding, and no keypad but by there being no plan", () => {
  const findings = checkFindings(mullion`
    //- main.mullion
    use "people.mullion.age"
      //^^^^^^^^^^^^^^^^^^^^ sealed-shut
    keypad gate "Gate" : tiny {
      installer code u1
      relay 1 "Gate" {
        1 u1
        1 u2
      //^ slot-clash
        9 u2
      //^ slot-range
      }
    }
    //- people.names
    holder u1: code
    holder u2: code
    //- people.mullion.age
  `);
  expect(findings.filter(({ code }) => code === "sealed-shut").map(({ keypads }) => keypads)).toEqual([["."]]);
});
