import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

const doors = (lock: string, more = "") => mullion`
  holder u1 "Unit 1" code 4829
  keypad gate "Gate" : tiny {
    installer code 6044
    relay 1 "Foot gate" release 5s { 1 u1 }
  }
  keypad back "Back" : tiny {
    installer code 6045
    relay 1 "Back" release 5s { 1 u1 }
  }
  door "Foot gate" { lock strike 12 V ${lock} }
  door "Back" { lock bolt 12 V 600 mA fail-secure }
  ${more}
`;

test("the sum, its parts, what is not counted, and the limit", () => {
  const findings = checkFindings(mullion`
    ${doors("0.5 A fail-secure")}
    supply cupboard "Riser cupboard" 12 V 1 A {
                                        //^^^ supply-overload
      feeds "Foot gate", "Back", keypad gate
    }
  `);
  expect(findings.map(({ message }) => message)).toEqual([
    "what Riser cupboard feeds takes 1.1 A all at once, more than its 1 A (Foot gate 500 mA, Back 600 mA); not counted: Gate (tiny does not say what it draws); assumed: every lock takes its current at once, charging the battery is not counted; local code, the maker's instructions and a competent person decide",
  ]);
  expect(findings[0]?.related.map(({ message }) => message)).toEqual(["takes 500 mA", "takes 600 mA"]);
});

test("exactly as much is not too much, an inrush is not counted, and what is fed twice is one load", () => {
  const findings = checkFindings(mullion`
    ${doors("400 mA 2 A inrush fail-secure")}
    supply cupboard "Riser cupboard" 12 V 1 A {
      feeds "Foot gate", "Back", "Back"
                               //^^^^^^ fed-twice
    }
  `);
  expect(findings.map(({ message }) => message)).toEqual(["Riser cupboard already feeds Back"]);
});
