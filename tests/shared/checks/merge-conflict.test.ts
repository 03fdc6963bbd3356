import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("one finding for each conflict; the first side is read, and the rest is checked", () => {
  const findings = checkFindings(mullion`
    <<<<<<< HEAD
  //^^^^^^^ merge-conflict
    holder u1 "Unit 1" code 4829
    =======
    holder u1 "Unit 1" code 5591
    >>>>>>> other
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
    <<<<<<< HEAD
  //^^^^^^^ merge-conflict
        1 u1
    ||||||| base
    =======
        1 u2
    >>>>>>> other
        4 u1
      //^ slot-range
        //^^ code-clash
      }
    }
  `);
  for (const { code, keypads } of findings) if (code === "merge-conflict") expect(keypads).toEqual([]);
});
