import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/checks/run.ts";
import { checkFindings, mullion, siteOf, today } from "../../support/fixture.ts";
import { fixed, running, shared } from "../../support/models.ts";

test("a length that the model does not have, in a slot and as an all-relay code", () => {
  checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 48291
    holder mgr "Manager" code 862
    keypad gate "Gate" : shared {
      installer code 604418
      all-relay 990 code mgr
                       //^^^ code-length
      relay 1 "Foot gate" {
          //^ relay-unreachable
        001 u1
          //^^ code-length
      }
      relay 2 spare
    }
  `);
});

test("where it follows the installer code, all codes have its length; an installer code of no length of the model changes nothing", () => {
  const site = (installer: string) => mullion`
    ${fixed}
    holder u1 "Unit 1" code 482917
    holder u2 "Unit 2" code 5591
    keypad gate "Gate" : fixed {
      installer code ${installer}
      relay 1 "Foot gate" { u1 }
      relay 2 "Vehicle gate" { u2 }
    }
  `;
  const lengthsIn = (text: string) => checkMessages(text).filter(message => message.includes("digits"));
  expect(lengthsIn(site("604418"))).toEqual(["Unit 2's code has 4 digits; this keypad takes 6, as many as its installer code"]);
  expect(lengthsIn(site("6044"))).toEqual(["Unit 1's code has 6 digits; this keypad takes 4, as many as its installer code"]);
  expect(findingsOf(siteOf(site("60441")), { today }).map(({ message }) => message)).toEqual([
    "the installer code has 5 digits; fixed takes 4 or 6",
  ]);
});

test("where it is set by an entry: the length that the text sets, else the record's, else the factory's", () => {
  checkFindings(mullion`
    ${running}
    holder u1 "Unit 1" code 482917
    holder u2 "Unit 2" code 55912
    keypad gate "Gate" : running {
      installer code 604418
      code length 6
      relay 1 "Gate" {
        01 u1
        02 u2
         //^^ code-length
      }
    }
    keypad back "Back" : running {
      installer code 60441
      relay 1 "Back" { 01 u2 }
    }
    fitted back 2026-11-20 {
      code length 5
      installer code 60441
    }
  `);
});

test("the line that sets it, out of range or where nothing sets it", () => {
  checkFindings(mullion`
    ${running}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : running {
      installer code 6044
      code length 9
                //^ code-length
      relay 1 "Gate" { 01 u1 }
    }
  `);
  checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      code length 4
                //^ code-length
      relay 1 "Gate" { 1 u1 }
    }
  `);
});

function checkMessages(text: string): readonly string[] {
  return findingsOf(siteOf(text), { today }).map(({ message }) => message);
}
