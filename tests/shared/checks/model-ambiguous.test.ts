import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("one finding for each entry that is hidden, with the entries that hide it as related places", () => {
  const findings = checkFindings(mullion`
    model wader "One relay" {
      slots 1..9 per relay
      codes 4 digits
      enter * {installer} #
      leave 0 #
      put code 1 {slot} {code} #
      clear slot 3 {slot} #
      set installer 4 {code} #
    //^^^^^^^^^^^^^ model-ambiguous
      set all-relay 4 {code} #
    //^^^^^^^^^^^^^ model-ambiguous
      clear all-relay 4
      open code {code}
      open all-relay * {code}
      factory { installer code 3069 }
    }
  `);
  expect(findings.map(({ severity }) => severity)).toEqual(["warning", "warning"]);
  expect(findings.map(({ message }) => message.replaceAll(/1{4,}/g, "…"))).toEqual([
    "clear all-relay is complete before set installer is: 4 begins 4…#",
    "clear all-relay is complete before set all-relay is: 4 begins 4…#; so it is with set installer",
  ]);
  expect(findings.map(({ related }) => related.length)).toEqual([1, 2]);
});

const wader = mullion`
  model wader "One relay" {
    slots 1..9 per relay
    codes 4 digits
    rewrite replaces
    enter * {installer} #
    put code 1 {slot} {code} #
  //^^^^^^^^ model-ambiguous
    clear slot 1 {slot}
    set installer 4 {code} #
    open code {code}
    factory { installer code 3069 }
  }
`;

test("an error at a keypad that needs both, and at no other", () => {
  const findings = checkFindings(mullion`
    ${wader}
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : wader {
      installer code 6044
      relay 1 "Gate" { 1 u1 }
    }
    keypad back "Back" : wader {
                       //^^^^^ model-ambiguous
      installer code 6044
      relay 1 "Back" { 1 u1 }
    }
    fitted back 2026-11-20 {
      installer code 6044
      relay 1 { 2 code 5591 }
    }
  `);
  expect(findings.map(({ severity, keypads }) => ({ severity, keypads }))).toEqual([
    { severity: "warning", keypads: ["gate", "back"] },
    { severity: "error", keypads: ["back"] },
  ]);
  expect(findings[1]?.message).toBe("Back needs clear slot and put code, which its model cannot tell apart");
});
