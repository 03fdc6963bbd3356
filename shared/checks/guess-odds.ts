/** Somebody who tries codes at the keypad has better odds than the site's policy allows. */
import { codeOdds, oneInWords } from "../codes/keypad-odds.ts";
import type { GuessOdds } from "../codes/odds.ts";
import type { Keypad } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";

interface Likely extends Found {
  readonly keypad: Keypad;
  readonly worst: GuessOdds;
  readonly oneIn: number;
}

export const guessOdds = check({
  code: "guess-odds",
  severity: "warning",
  exceptions: "judged only where the policy says odds",
  needsOpen: true,
  explain: {
    what: "The odds of a guessed code before the keypad locks out are worse than the policy allows.",
    why:
      "With K live codes among N, g different guesses hit one with 1 - Π (N-K-i)/(N-i) (drawing without repetition, the hypergeometric distribution). More codes on one keypad, shorter codes and a patient lockout make it worse. " +
      "A keypad that never locks out lets every code be tried, so any odds are missed. IEC 60839-11-1:2013, Table 4, quoted second-hand, asks for 1000 possible codes for each one given out where the code alone identifies; confirm against your edition. The limit is the site's own: `policy { guess odds 1 in 1000 }`.",
    triggers: mullion`
      policy { guess odds 1 in 5000 }
      model locks "Locks out" {
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        lockout 5 tries 60s
        enter * {installer} #
        put code 1 {relay} {slot} {code} #
        clear slot 2 {relay} {slot} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : locks {
        //   ^^^^ guess-odds
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
    `,
    quiet: mullion`
      policy { guess odds 1 in 2000 }
      model locks "Locks out" {
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        lockout 5 tries 60s
        enter * {installer} #
        put code 1 {relay} {slot} {code} #
        clear slot 2 {relay} {slot} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : locks {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
    `,
  },
  *find(site): Iterable<Likely> {
    const limit = site.policy.guessOdds;
    if (!limit) return;
    for (const keypad of site.keypads.values()) {
      const worst = codeOdds(keypad)[0];
      if (!worst) continue;
      // A hair of tolerance: odds of exactly one in the limit are within it, whatever the last binary digit says.
      if (worst.beforeLockout !== undefined && worst.beforeLockout * limit.oneIn <= 1 + 1e-9) continue;
      yield { ...at(keypad.file, keypad.node.name ?? keypad.node.keyword), ...only(keypad), keypad, worst, oneIn: limit.oneIn };
    }
  },
  message: ({ keypad, worst, oneIn }) =>
    worst.beforeLockout === undefined
      ? `${keypad.label} never locks out, so every code of ${worst.digits} digits can be tried: the policy wants odds of 1 in ${oneIn} at most`
      : `a guess at ${keypad.label} opens with odds of ${oneInWords(worst.beforeLockout)} before it locks out after ${worst.tries} tries (${worst.live} codes of ${worst.digits} digits); the policy wants 1 in ${oneIn} at most`,
});
