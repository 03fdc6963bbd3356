import { test } from "vitest";
import { checkFix } from "../../support/fixes.ts";
import { checkFindings, mullion } from "../../support/fixture.ts";
import { shared } from "../../support/models.ts";

test("a tag among codes, a code among tags, either among all-relay codes, an all-relay code among codes", () => {
  checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829 tag 8061261
    holder u2 "Unit 2" code 5591 tag 8061262
    holder mgr "Manager" code 8620
    keypad gate "Gate" : shared {
      installer code 604418
      all-relay 050 code mgr
              //^^^ slot-kind
      relay 1 "Foot gate" {
        001 u1.tag
      //^^^ slot-kind
        100 u1
      //^^^ slot-kind
        991 u2
      //^^^ slot-kind
        002 u2.tag
      //^^^ slot-kind
      }
      relay 2 spare
    }
  `);
});

test("a record is held to the ranges too", () => {
  checkFindings(mullion`
    ${shared}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : shared {
      installer code 604418
      relay 1 "Foot gate" { 001 u1 }
      relay 2 spare
    }
    fitted gate 2026-11-20 {
      relay 1 {
        002 tag 8061261
      //^^^ slot-kind
      }
    }
  `);
});

test("moves into the range of its kind", () => {
  const site = (slot: string) => mullion`
    ${shared}
    holder u1 "Unit 1" code 4829 tag 8061261
    holder u2 "Unit 2" tag 8061262
    keypad gate "Gate" : shared {
      installer code 604418
      relay 1 "Foot gate" {
        001 u1
        100 u2
        ${slot} u1.tag
      }
      relay 2 spare
    }
  `;
  checkFix(site("002"), "slot-kind", "Move to slot 101", site("101"));
});
