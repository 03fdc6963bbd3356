import { expect, test } from "vitest";
import { fixesIn } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { either, loose, shared, two } from "../../support/models.ts";

test("twins refused: one code on two relays, by one holder too, and the all-relay code; a tag as well", () => {
  const findings = checkFindings(mullion`
    ${two}
    holder u1 "Unit 1" code 4829 tag 8061261
    holder mgr "Manager" code 8620
    keypad gate "Gate" : two {
      installer code 6044
      all-relay code mgr
      relay 1 "Foot gate" {
        01 u1
        02 mgr
         //^^^ code-clash
        10 u1.tag
      }
      relay 2 "Vehicle gate" {
        01 u1
         //^^ code-clash
        10 u1.tag
         //^^^^^^ code-clash
      }
    }
  `);
  expect(findings.map(({ message }) => message)).toEqual([
    "Manager's code again, in the all-relay code already; two refuses one code in two places",
    "Unit 1's code again, in slot 01 of Foot gate already; two refuses one code in two places",
    "Unit 1's tag again, in slot 10 of Foot gate already; two refuses one tag in two places",
  ]);
  expect(new Set(findings.map(({ severity }) => severity))).toEqual(new Set(["error"]));
});

test("the first fires: the later one never does", () => {
  const [finding] = checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 4829
    holder u3 "Unit 3" code 5591
    keypad gate "Gate" : shared {
      installer code 604418
      relay 1 "Foot gate" {
        001 u1
        002 u2
          //^^ code-clash
      }
      relay 2 "Vehicle gate" { 003 u3 }
    }
  `);
  expect(finding?.message).toBe("the same as Unit 1's code, in slot 001 of Foot gate already; only the first of the two fires");
});

test("all fire: a warning where the holders differ, nothing where one holder opens two doors", () => {
  const findings = checkFindings(mullion`
    ${loose}
    holder u1 "Unit 1" code 48291
    holder u2 "Unit 2" code 48291
    keypad gate "Gate" : loose {
      installer code 60441
      relay 1 "Foot gate" { u1 }
      relay 2 "Vehicle gate" {
        u1
        u2
      //^^ code-clash
      }
    }
  `);
  expect(findings.map(({ severity }) => severity)).toEqual(["warning"]);
});

test("a code is no twin of a tag with its digits, a pair none of itself, two keypads are two memories", () => {
  checkFindings(mullion`
    ${either}
    holder u1 "Unit 1" code 4829 tag 4829
    keypad gate "Gate" : either {
      installer code 6044
      relay 1 "Gate" { 01 u1 or u1.tag }
    }
    keypad back "Back" : either {
      installer code 6044
      relay 1 "Back" { 01 u1 or u1.tag }
    }
  `);
});

test("a new code is drawn for the later of two holders, and for nobody where it is one holder's code", () => {
  const site = (digits: string, entry: string) => mullion`
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code ${digits}
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" { 1 u1 2 ${entry} }
    }
  `;
  expect(fixesIn(site("4829", "u2"), "code-clash").map(({ fix }) => fix.draws)).toEqual(["u2"]);
  expect(fixesIn(site("5591", "u1"), "code-clash")).toEqual([]);
});
