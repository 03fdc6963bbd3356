import { test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { running, shared } from "../../support/models.ts";

test("a length of its own, where the model gives it one", () => {
  checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829
    holder firm "Our own" code gate 6044
    keypad gate "Gate" : shared {
      installer code firm.gate
                   //^^^^^^^^^ installer-length
      relay 1 "Foot gate" { 001 u1 }
      relay 2 spare
    }
  `);
});

test("the length that is set, where one length is for all", () => {
  checkFindings(mullion`
    ${running}
    holder u1 "Unit 1" code 48291
    keypad gate "Gate" : running {
      installer code 6044
                   //^^^^ installer-length
      code length 5
      relay 1 "Gate" { 01 u1 }
    }
  `);
});

test("in a record", () => {
  checkFindings(mullion`
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 spare
    }
    fitted gate 2026-11-20 {
      installer code 60441
                   //^^^^^ installer-length
    }
  `);
});
