import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("relays that are typed the same, an unknown field, a width too small; keypads of the model are held back", () => {
  const findings = checkFindings(mullion`
    model wader "Two relays" {
      relays 1 = 1, 2 = 1
                  //^^^^^ model-field
      slots 01..20 per relay
      codes 4 digits
      enter * {installer} #
      leave * *
      put code 1 {relay} {slot:1} {code} #
                       //^^^^^^^^ model-field
      clear slot 3 {relay} {place} #
    //^^^^^^^^^^ model-incomplete
                         //^^^^^^^ model-field
      open code {code}
      factory { installer code 3069 }
    }
    keypad gate "Gate" : wader {
      installer code 6044
      relay 1 spare
    }
    keypad back "Back" : other { }
                       //^^^^^ name-unknown
  `);
  expect(findings.filter(({ code }) => code === "model-field").map(({ keypads }) => keypads)).toEqual([["gate"], ["gate"], ["gate"]]);
});
