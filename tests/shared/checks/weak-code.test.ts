import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

test("codes and installer codes, each with its reason", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 3112
      //                    ^^^^ weak-code
    holder u3 "Unit 3"
      code 7337
      //   ^^^^ weak-code
    keypad gate "Gate" : tiny {
      installer code 6969
      //             ^^^^ weak-code
      relay 1 "Gate" {
        1 u1
        2 u2
        3 u3
      }
    }
  `);
  expect(findings.map(({ message, severity }) => `${severity}: ${message}`)).toEqual([
    "warning: Unit 2's code is easily guessed: it reads as a date",
    "warning: Unit 3's code is easily guessed: it reads the same backwards",
    "warning: the installer code of Gate is easily guessed: it is among the twenty most used codes of a published count",
  ]);
});

test("the policy refuses", () => {
  const [finding] = checkFindings(mullion`
    policy { weak codes refuse }
    holder u1 "Unit 1" code 3112
      //                    ^^^^ weak-code
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1
      }
    }
  `);
  expect([finding?.severity, finding?.keypads]).toEqual(["error", ["gate"]]);
});

test("the policy allows", () => {
  checkFindings(mullion`
    policy { weak codes allow }
    holder u1 "Unit 1" code 3112
    keypad gate "Gate" : tiny {
      installer code 6044
      relay 1 "Gate" {
        1 u1
      }
    }
  `);
});

test("what is fitted already is one hint a keypad", () => {
  const findings = checkFindings(mullion`
    holder u1 "Unit 1" code 3112
    holder u2 "Unit 2" code 7337
    keypad gate "Gate" : tiny {
      //   ^^^^ weak-code
      installer code 6044
      relay 1 "Gate" {
        1 u1
        2 u2
      }
    }
    fitted gate 2026-11-20 {
      model tiny
      installer code 6044
      relay 1 {
        01 code 3112
        02 code 7337
      }
    }
  `);
  expect(findings.map(({ message, severity }) => `${severity}: ${message}`)).toEqual([
    "hint: easily guessed, and fitted at Gate already: Unit 1's code, Unit 2's code",
  ]);
});
