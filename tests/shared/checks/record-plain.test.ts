import { test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("a record that holds nothing tells nothing, and one that no site reads is nobody's", () => {
  checkFindings(mullion`
    //- main.mullion
    use "people.mullion.age"
      //^^^^^^^^^^^^^^^^^^^^ sealed-shut
    keypad gate "Gate" : tiny {
      installer code u1
      relay 1 "Gate" {
        1 u1
      }
    }
    //- people.names
    holder u1: code
    //- people.mullion.age
    //- main.fitted.mullion
    fitted gate unknown
    //- other.fitted.mullion
    fitted gate 2026-11-20 { installer code 6044 }
  `);
});

test("a sealed record is what is asked for", () => {
  checkFindings(mullion`
    //- main.mullion
    use "people.mullion.age"
      //^^^^^^^^^^^^^^^^^^^^ sealed-shut
    site "Wren Yard"
       //^^^^^^^^^^^ sealed-shut
    //- people.mullion.age
    //- main.fitted.mullion.age
  `);
});
