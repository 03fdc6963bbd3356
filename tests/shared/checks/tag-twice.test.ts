import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("by value, in any spelling, under two names of one holder too; marks by their words", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1"
      tag 8061262 "blue fob"
      tag bike 0x7B014E
             //^^^^^^^^ tag-twice
    holder u2 "Unit 2"
      tag 123,00334
        //^^^^^^^^^ tag-twice
      tag dot "red dot"
    holder u3 "Unit 3" tag "red dot"
                         //^^^^^^^^^ tag-twice
    holder u4 "Unit 4" tag "blue fob"
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" { 1 u1.tag 2 u2.tag 3 u4 }
                                //^^^^^^ code-clash
    }
    keypad back "Back" : tiny {
      installer code 6044
      relay 1 "Back" { 1 u1.bike 2 u2.dot 3 u3 }
                                          //^^ code-clash
    }
  `);
  expect(findings.filter(({ code }) => code === "tag-twice").map(({ keypads, message }) => `${message}: ${keypads.join(" ")}`)).toEqual([
    "this is Unit 1's tag as well: gate back",
    "this is Unit 1's tag as well: gate",
    "this is Unit 2's tag dot as well: back",
  ]);
});
