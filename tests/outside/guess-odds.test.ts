import geometric from "@stdlib/stats-base-dists-geometric-cdf";
import hypergeometric from "@stdlib/stats-base-dists-hypergeometric-cdf";
import { describe, expect, test } from "vitest";
import {
  guessOdds,
  keysToTryAll,
  lockedSeconds,
  meanGuesses,
  meanLockedSeconds,
  oddsOfHit,
  oddsOfHitRepeating,
} from "../../shared/codes/odds.ts";
import published from "./published.json";

describe("chance of a hit", () => {
  test.each(published.guessOdds)("$K live of $N, $g guesses", ({ N, K, g, noRepeat, withRepeat, meanNoRepeat, meanWithRepeat }) => {
    expect(oddsOfHit(N, K, g)).toBeCloseTo(noRepeat, 8);
    expect(oddsOfHitRepeating(N, K, g)).toBeCloseTo(withRepeat, 10);
    expect(meanGuesses(N, K)).toBeCloseTo(meanNoRepeat, 7);
    expect(N / K).toBeCloseTo(meanWithRepeat, 7);
    // Independent library: @stdlib (Apache-2.0). Its hypergeometric loses digits through log-gamma at a million codes.
    expect(oddsOfHit(N, K, g)).toBeCloseTo(1 - hypergeometric(0, N, K, g), N > 100_000 ? 6 : 9);
    expect(oddsOfHitRepeating(N, K, g)).toBeCloseTo(geometric(g - 1, K / N), 9);
  });

  test("is the same when live codes and guesses are exchanged", () => {
    expect(oddsOfHit(10_000, 10, 100)).toBeCloseTo(oddsOfHit(10_000, 100, 10), 12);
  });

  test("is certain once every code has been tried", () => {
    expect(oddsOfHit(100, 1, 100)).toBe(1);
    expect(oddsOfHit(100, 50, 51)).toBe(1);
  });
});

describe("trying every code", () => {
  test.each(published.deBruijn.filter(({ k }) => k === 10))(
    "$n digits: $linearLength keys where the keypad listens to the last keys",
    ({ n, linearLength }) => {
      expect(keysToTryAll(n, "to the last keys")).toBe(linearLength);
    },
  );

  test("a sequence of that length over ten digits does hold every code of four digits", () => {
    const sequence = deBruijn(10, 4);
    const keys = sequence + sequence.slice(0, 3);
    expect(keys.length).toBe(keysToTryAll(4, "to the last keys"));
    const seen = new Set<string>();
    for (let i = 0; i + 4 <= keys.length; i++) seen.add(keys.slice(i, i + 4));
    expect(seen.size).toBe(10_000);
  });

  test("framed entries cost their digits and the keys that end them: 10^n (n + 1) with one end key", () => {
    expect(keysToTryAll(4, "from the first key", 1)).toBe(50_000);
  });

  // 3 tries per 60 s: 4,320 guesses a day, the whole four-digit space in 55.56 h, 27.78 h in the mean (arithmetic).
  test("lockout of 60 s after 3 tries", () => {
    expect(lockedSeconds(10_000, 3, 60) / 3_600).toBeCloseTo(55.55, 2);
    expect(lockedSeconds(meanGuesses(10_000, 1), 3, 60) / 3_600).toBeCloseTo(27.77, 2);
  });

  // One live code is equally likely at every guess: with 5 tries the 10,000 guesses wait out 0, 1, … 1,999 lockouts, five guesses each, 999.5 in the mean (arithmetic).
  test("the mean wait is the mean of the waits, not the wait of the mean", () => {
    expect(meanLockedSeconds(10_000, 1, 5, 60)).toBeCloseTo(999.5 * 60, 6);
    // Every second of ten codes: the wait after two wrong tries has odds of 5/10 × 4/9, after four of those × 3/8 × 2/7 (arithmetic).
    expect(meanLockedSeconds(10, 5, 2, 60)).toBeCloseTo(((5 / 10) * (4 / 9) + (5 / 10) * (4 / 9) * (3 / 8) * (2 / 7)) * 60, 9);
    expect(meanLockedSeconds(1_000, 1_000, 3, 60)).toBe(0);
  });

  test.each([1, 30, 1_000, 50_000])("more codes than are added up one by one: with %i live of 1,000,000 as with the whole sum", live => {
    let [miss, lockouts] = [1, 0];
    for (let guess = 0; guess < 1_000_000 && miss > 1e-15; guess++) {
      miss *= (1_000_000 - live - guess) / (1_000_000 - guess);
      if ((guess + 1) % 5 === 0) lockouts += miss;
    }
    expect(meanLockedSeconds(1_000_000, live, 5, 1) / lockouts).toBeCloseTo(1, 3);
  });
});

test("each length is judged by itself, and no lockout means no odds before it", () => {
  const lengths = new Map([
    [6, 2],
    [4, 1],
  ]);
  const locked = guessOdds(lengths, { lockout: { tries: 5, seconds: 60 }, listens: "to the last keys", endKeys: 0 });
  expect(locked.map(({ digits, live, beforeLockout }) => [digits, live, beforeLockout?.toFixed(9)])).toEqual([
    [4, 1, "0.000500000"],
    [6, 2, "0.000010000"],
  ]);
  expect(
    guessOdds(lengths, { listens: "from the first key", endKeys: 1 }).map(({ beforeLockout, keysForAll }) => [beforeLockout, keysForAll]),
  ).toEqual([
    [undefined, 50_000],
    [undefined, 7_000_000],
  ]);
});

/** Lyndon words in order (Fredricksen, Kessler, Maiorana): a cyclic sequence that holds every word of `n` letters once. */
function deBruijn(k: number, n: number): string {
  const word = Array.from({ length: n + 1 }, () => 0);
  let sequence = "";
  const extend = (t: number, p: number): void => {
    if (t > n) {
      if (n % p === 0) sequence += word.slice(1, p + 1).join("");
      return;
    }
    word[t] = word[t - p] ?? 0;
    extend(t + 1, p);
    for (let letter = (word[t - p] ?? 0) + 1; letter < k; letter++) {
      word[t] = letter;
      extend(t + 1, t);
    }
  };
  extend(1, 1);
  return sequence;
}
