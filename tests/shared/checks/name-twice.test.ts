import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("holders, keypads, models and records, in one file and in two", () => {
  checkFindings(mullion`
    //- a.mullion
    use "b.mullion"
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" { 1 u1 }
    }
    keypad gate "Again" : tiny { }
         //^^^^ name-twice
    fitted gate unknown
    fitted gate unknown
         //^^^^ name-twice
    //- b.mullion
    holder u1 "Unit 1, again"
         //^^ name-twice
  `);
});

test("codes and tags of one holder: a name is for one of either kind", () => {
  checkFindings(mullion`
    holder u1 "Unit 1"
      code 4829
      tag 8061261
      code yard 5591
      tag yard 8061262
        //^^^^ name-twice
      code 7304
    //^^^^ name-twice
      tag bike 8061263
      tag bike 8061264
        //^^^^ name-twice
  `);
});

test("one label on relays of two keypads is one door, and no name", () => {
  expect(
    checkFindings(mullion`
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" { 1 u1 }
      }
      keypad back "Back" : tiny {
        installer code 6044
        relay 1 "Gate" { 1 u1 }
      }
    `),
  ).toEqual([]);
});

test("another site's file that is used", () => {
  checkFindings(mullion`
    //- a.mullion
    site "Wren Yard"
    use "b.mullion"
    //- b.mullion
    site "Heron Mill"
  //^^^^ name-twice
  `);
});

test("a site named twice in one file is one finding", () => {
  checkFindings(mullion`
    site "Wren Yard"
    site "Heron Mill"
  //^^^^ syntax
  `);
});
