import { test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { loose, shared, two } from "../../support/models.ts";

test("outside all ranges, between two of them, and far too large", () => {
  checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829 tag 8061261
    holder u2 "Unit 2" code 5591
    holder u3 "Unit 3" code 7304
    holder mgr "Manager" code 8620
    keypad gate "Gate" : shared {
      installer code 604418
      all-relay 994 code mgr
              //^^^ slot-range
      relay 1 "Foot gate" {
        000 u1
      //^^^ slot-range
        200 u1.tag
      //^^^ slot-range
        99999999999999999999 u2
      //^^^^^^^^^^^^^^^^^^^^ slot-range
        099 u3
      }
      relay 2 spare
    }
  `);
});

test("a memory without numbers has no range, and a number there is another finding", () => {
  checkFindings(mullion`
    ${loose}
    holder u1 "Unit 1" code 48291
    keypad gate "Gate" : loose {
      installer code 60441
      relay 1 "Foot gate" {
        61 u1
      //^^ slot-number
      }
      relay 2 spare
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
      relay 1 {
        4 code 4829
      //^ slot-range
      }
    }
  `);
});

test("moves behind the last slot of the relay, or into a gap when the end is taken", () => {
  const site = (slot: string) => mullion`
    ${two}
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 5591
    holder u3 "Unit 3" code 7304
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" {
        01 u1
        60 u2
        ${slot} u3
      }
      relay 2 spare
    }
  `;
  checkFix(site("61"), "slot-range", "Move to slot 02", site("02"));
});
