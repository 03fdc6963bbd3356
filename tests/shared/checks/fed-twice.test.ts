import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("a keypad and a door that two supplies feed", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Foot gate" release 5s { 1 u1 }
    }
    supply cupboard "Riser cupboard" 12 V 2 A { feeds "Foot gate", keypad gate }
    supply loft "Loft" 12 V 2 A {
      feeds keypad gate, "Foot gate"
                 //^^^^ fed-twice
                       //^^^^^^^^^^^ fed-twice
    }
  `);
  expect(findings.map(({ message, related }) => [message, related[0]?.message])).toEqual([
    [
      "Gate is fed by Riser cupboard, too: two supplies are not wired together unless their makers allow it",
      "Riser cupboard feeds it here",
    ],
    [
      "Foot gate is fed by Riser cupboard, too: two supplies are not wired together unless their makers allow it",
      "Riser cupboard feeds it here",
    ],
  ]);
});
