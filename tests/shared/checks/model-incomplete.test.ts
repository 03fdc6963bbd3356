import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("an operation without a field it needs, and one with a field it cannot have", () => {
  checkFindings(mullion`
    model wader "One relay" {
      slots 1..9 per relay
      codes 4 digits
      enter * #
    //^^^^^ model-incomplete
      leave * *
      put code 1 {slot} #
    //^^^^^^^^ model-incomplete
      clear slot 3 {slot} {value} #
                        //^^^^^^^ model-incomplete
      open code {code}
      factory { installer code 3069 }
    }
  `);
});

test("a model that can put but neither overwrite nor clear is told so, as a warning", () => {
  const [finding] = checkFindings(mullion`
    model wader "One relay" {
      slots 1..9 per relay
      codes 4 digits
      enter * {installer} #
      leave * *
      put code 1 {slot} {code} #
    //^^^^^^^^ model-incomplete
      open code {code}
      factory { installer code 3069 }
    }
  `);
  expect(finding?.severity).toBe("warning");
});

test("a factory block that the keypad cannot hold", () => {
  checkFindings(mullion`
    model wader "One relay" {
      slots 1..9 per relay
      codes 4 digits
      enter * {installer} #
      leave * *
      put code 1 {slot} {code} #
      clear slot 3 {slot} #
      open code {code}
      factory {
        installer code 30691
                     //^^^^^ model-incomplete
      }
    }
  `);
});
