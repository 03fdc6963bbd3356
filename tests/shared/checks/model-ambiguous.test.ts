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
