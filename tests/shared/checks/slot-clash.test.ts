import { expect, test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { either, fixed, shared, two } from "../../support/models.ts";

test("a place belongs to its relay where the model says so: the same number under another relay is another place", () => {
  checkFindings(mullion`
    ${two}
    holder u1 "Unit 1" code 4829 tag 8061261
    holder u2 "Unit 2" code 5591
    holder u3 "Unit 3" code 7304
    keypad gate "Gate" : two {
      installer code 6044
      relay 1 "Foot gate" {
        01 u1
        1 u1.tag
      //^ slot-clash
      //^ slot-number
      }
      relay 2 "Vehicle gate" {
        01 u2
        01 u3
      //^^ slot-clash
      }
    }
  `);
});

test("a shared number is used once on the keypad, and so is the number of an all-relay code", () => {
  const findings = checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 5591
    holder mgr "Manager" code 7304 code other 8620
    keypad gate "Gate" : shared {
      installer code 604418
      all-relay 990 code mgr
      all-relay 0990 code mgr.other
              //^^^^ slot-clash
              //^^^^ slot-number
      relay 1 "Foot gate" { 001 u1 }
      relay 2 "Vehicle gate" {
        001 u2
      //^^^ slot-clash
      }
    }
  `);
  expect(findings[2]?.message).toBe("slot 001 of Gate already holds Unit 1");
});

test("a relay that has one place", () => {
  checkFindings(mullion`
    ${fixed}
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 5591
    keypad gate "Gate" : fixed {
      installer code 6044
      relay 1 "Foot gate" {
        u1
        u2
      //^^ slot-clash
      }
      relay 2 spare
    }
  `);
});

test("a record that says one place twice", () => {
  checkFindings(mullion`
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 spare
    }
    fitted gate 2026-11-20 {
      relay 1 {
        1 code 4829
        1 code 5591
      //^^^^^^^^^^^ slot-clash
      }
    }
  `);
});

test("moves to the next free slot, zeros in front", () => {
  checkFix(
    mullion`
      ${two}
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          07 u1
          07 u2
        }
        relay 2 spare
      }
    `,
    "slot-clash",
    "Move to slot 08",
    mullion`
      ${two}
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591
      keypad gate "Gate" : two {
        installer code 6044
        relay 1 "Foot gate" {
          07 u1
          08 u2
        }
        relay 2 spare
      }
    `,
  );
});

test("a code and a tag of one holder go into one slot where the model has pairs", () => {
  checkFix(
    mullion`
      ${either}
      holder u1 "Unit 1" code 4829 tag 8061261
      keypad gate "Gate" : either {
        installer code 6044
        relay 1 "Gate" {
          01 u1
          01 u1.tag
        }
      }
    `,
    "slot-clash",
    "Put both into the one slot: u1 or u1.tag",
    mullion`
      ${either}
      holder u1 "Unit 1" code 4829 tag 8061261
      keypad gate "Gate" : either {
        installer code 6044
        relay 1 "Gate" {
          01 u1 or u1.tag
        }
      }
    `,
  );
});
