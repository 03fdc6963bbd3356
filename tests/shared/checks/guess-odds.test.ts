import { expect, test } from "vitest";
import { checkFindings, mullion } from "../../support/fixture.ts";

const site = (lockout: string, policy: string, mark: string) => `
    policy { ${policy} }
    model locks "Locks out" {
      relays 1 = 1
      slots 1..3 per relay
      codes 4 digits
      lockout ${lockout}
      enter * {installer} #
      put code 1 {relay} {slot} {code} #
      clear slot 2 {relay} {slot} #
      set installer 4 {code} {code} #
      open code {code}
      factory { installer code 9753 }
    }
    holder u1 "Unit 1" code 4829
    holder u2 "Unit 2" code 5591
    keypad gate "Gate" : locks {
${mark}
      installer code 6044
      relay 1 "Gate" {
        1 u1
        2 u2
      }
    }
`;
const mark = "      //   ^^^^ guess-odds";

test("two codes of ten thousand, five tries: one in a thousand", () => {
  const [finding] = checkFindings(site("5 tries 60s", "guess odds 1 in 1500", mark));
  expect(finding?.message).toBe(
    "a guess at Gate opens with odds of 1 in 1000 before it locks out after 5 tries (2 codes of 4 digits); the policy wants 1 in 1500 at most",
  );
  checkFindings(site("5 tries 60s", "guess odds 1 in 1000", ""));
});

test("a keypad that never locks out misses any odds", () => {
  const [finding] = checkFindings(site("none", "guess odds 1 in 2", mark));
  expect(finding?.message).toBe("Gate never locks out, so every code of 4 digits can be tried: the policy wants odds of 1 in 2 at most");
});

test("without the line the odds are not judged", () => {
  checkFindings(mullion`${site("none", "weak codes warn", "")}`);
});
