/** The odds that somebody guesses a code at the keypad. */

/**
 * Chance that `guesses` different guesses out of `possible` codes hit at least one of `live` codes: drawing without repetition
 * (hypergeometric), 1 - Π (N-K-i)/(N-i).
 */
export function oddsOfHit(possible: number, live: number, guesses: number): number {
  let miss = 1;
  for (let i = 0; i < Math.min(guesses, possible); i++) {
    miss *= Math.max(0, possible - live - i) / (possible - i);
    if (miss === 0) break;
  }
  return 1 - miss;
}

/** The same where guesses may repeat (geometric), 1 - (1 - K/N)^g. */
export function oddsOfHitRepeating(possible: number, live: number, guesses: number): number {
  return 1 - (1 - live / possible) ** guesses;
}

/** Mean number of different guesses until the first hit: (N+1)/(K+1), negative hypergeometric. */
export function meanGuesses(possible: number, live: number): number {
  return (possible + 1) / (live + 1);
}

/**
 * Key presses that try every code of `digits` digits.
 *
 * @param listens where a keypad takes any run of keys that ends in a code, a de Bruijn sequence does it in 10^n + n - 1 keys; where entries are framed,
 * each code costs its digits and the keys that end it.
 */
export function keysToTryAll(digits: number, listens: "to the last keys" | "from the first key", endKeys = 0): number {
  return listens === "to the last keys" && endKeys === 0 ? 10 ** digits + digits - 1 : 10 ** digits * (digits + endKeys);
}

/**
 * Seconds until `guesses` guesses have been made where `tries` wrong ones lock the keypad for `lockSeconds`. Only the waiting counts:
 * the time for the keys is on top.
 */
export function lockedSeconds(guesses: number, tries: number, lockSeconds: number): number {
  return Math.floor((Math.max(1, guesses) - 1) / tries) * lockSeconds;
}

/** Up to so many possible codes the mean wait is added up guess by guess. */
const addedUp = 100_000;

/**
 * Mean seconds of lockout until the first hit: a lockout for each `tries` guesses that all missed, Σ P(no hit in m × tries guesses). For more codes than 100,000 the sum is
 * (E - (t-1)/2) / t + K/N × (t - 1/t) / 12 with E = (N+1)/(K+1) - 1 misses on average and t tries (Euler-Maclaurin, first two terms).
 */
export function meanLockedSeconds(possible: number, live: number, tries: number, lockSeconds: number): number {
  if (possible > addedUp) {
    const misses = meanGuesses(possible, live) - 1;
    return Math.max(0, (misses - (tries - 1) / 2) / tries + ((live / possible) * (tries - 1 / tries)) / 12) * lockSeconds;
  }
  let lockouts = 0;
  let miss = 1;
  for (let guess = 1; guess <= possible && miss > 1e-15; guess++) {
    miss *= Math.max(0, possible - live - guess + 1) / (possible - guess + 1);
    if (guess % tries === 0) lockouts += miss;
  }
  return lockouts * lockSeconds;
}

export interface GuessOdds {
  /** Digits of the codes that are guessed. */
  readonly digits: number;
  readonly live: number;
  /** Wrong tries before the keypad locks; undefined where it never does. */
  readonly tries?: number;
  /** Chance of a hit before the first lockout; undefined where the keypad never locks. */
  readonly beforeLockout?: number;
  readonly meanGuesses: number;
  /** Mean seconds of lockout until the first hit. */
  readonly meanLockedSeconds?: number;
  /** Keys that try every code. */
  readonly keysForAll: number;
}

/** The odds for the live codes of each length, shortest first. `live` counts different codes, all-relay codes included. */
export function guessOdds(
  live: ReadonlyMap<number, number>,
  keypad: {
    readonly lockout?: { readonly tries: number; readonly seconds: number };
    readonly listens: "to the last keys" | "from the first key";
    readonly endKeys: number;
  },
): readonly GuessOdds[] {
  return [...live.entries()]
    .filter(([, count]) => count > 0)
    .sort(([a], [b]) => a - b)
    .map(([digits, count]) => {
      const possible = 10 ** digits;
      const mean = meanGuesses(possible, count);
      return {
        digits,
        live: count,
        meanGuesses: mean,
        keysForAll: keysToTryAll(digits, keypad.listens, keypad.endKeys),
        ...(keypad.lockout && {
          tries: keypad.lockout.tries,
          beforeLockout: oddsOfHit(possible, count, keypad.lockout.tries),
          meanLockedSeconds: meanLockedSeconds(possible, count, keypad.lockout.tries, keypad.lockout.seconds),
        }),
      };
    });
}
