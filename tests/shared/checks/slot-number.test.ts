import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { fixed, loose, shared, two } from "../../support/models.ts";

test("missing, at entries and at all-relay codes that are kept by number", () => {
  checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 5591
    holder mgr "Manager" code 8620
    keypad gate "Gate" : shared {
      installer code 604418
      all-relay code mgr
    //^^^^^^^^^ slot-number
      relay 1 "Foot gate" {
        001 u1
        u2
      //^^ slot-number
      }
      relay 2 spare
    }
  `);
});

test("given where places have no number, and at an all-relay code that has none", () => {
  checkFindings(mullion`
    ${fixed}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : fixed {
      installer code 6044
      relay 1 "Foot gate" {
        01 u1
      //^^ slot-number
      }
      relay 2 spare
    }
  `);
  checkFindings(mullion`
    ${two}
    holder mgr "Manager" code 4829
    keypad gate "Gate" : two {
      installer code 6044
      all-relay 990 code mgr
              //^^^ slot-number
      relay 1 "Foot gate" { }
      relay 2 "Vehicle gate" { }
    }
  `);
});

test("not at full width is a hint and holds nothing back; written wider than it is typed as well", () => {
  const findings = checkFindings(mullion`
    ${two}
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 5591
    holder u3 "Unit 3" code 7304
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" {
        1 u1
      //^ slot-number
        002 u2
      //^^^ slot-number
      }
      relay 2 "Vehicle gate" { 01 u3 }
    }
  `);
  expect(findings.map(({ severity }) => severity)).toEqual(["hint", "hint"]);
});

test("pads, takes out, and gives the next free number", () => {
  const padded = (slot: string) => mullion`
    ${two}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" {
        ${slot} u1
      }
      relay 2 spare
    }
  `;
  checkFix(padded("1"), "slot-number", "Write 01", padded("01"));
  checkFix(
    padded("").replace(/^ +u1$/m, "            u1"),
    "slot-number",
    "Put into slot 01",
    padded("").replace(/^ +u1$/m, "            01 u1"),
  );
  const unnumbered = (entry: string) => mullion`
    ${loose}
    holder u1 "Unit 1" code 48291
    keypad gate "Gate" : loose {
      installer code 60441
      relay 1 "Foot gate" {
        ${entry}
      }
      relay 2 spare
    }
  `;
  checkFix(unnumbered("07 u1"), "slot-number", "Remove the number", unnumbered("u1"));
});
