import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { StoredCode } from "../../../shared/codes/near.ts";
import { mostCodesApart, nearAny, nearPairs, placesApart } from "../../../shared/codes/near.ts";
import { runs } from "../../support/chance.ts";

const allPairs = (codes: readonly StoredCode[], places: number) =>
  codes.flatMap((one, i) =>
    codes.flatMap((other, j) =>
      j > i && one.opens !== other.opens && one.digits !== other.digits && placesApart(one.digits, other.digits) < places
        ? [[i, j] as const]
        : [],
    ),
  );

const stored = fc.record({ digits: fc.stringMatching(/^[0-4]{3,5}$/), opens: fc.constantFrom("1", "2") });

test("near pairs are those that comparing all with all finds", () => {
  fc.assert(
    fc.property(fc.array(stored, { maxLength: 40 }), fc.integer({ min: 1, max: 4 }), (codes, places) => {
      expect(nearPairs(codes, places)).toEqual(allPairs(codes, places));
    }),
    { numRuns: runs(400) },
  );
});

/** Codes longer than any keypad takes are typed by mistake, and must neither be missed nor take for ever. */
test.each([20, 30, 31, 32, 33, 64, 1_000])("codes of %i digits are compared as others are", digits => {
  const one = "1".repeat(digits);
  const codes = [one, `${one.slice(1)}2`, `${one.slice(2)}22`, `3${one.slice(1)}`].map((code, index) => ({
    digits: code,
    opens: String(index),
  }));
  expect(nearPairs(codes, 2)).toEqual(allPairs(codes, 2));
  expect(nearPairs(codes, digits + 1)).toEqual(allPairs(codes, digits + 1));
});

test("near to any: as comparing with each says", () => {
  const digits = fc.stringMatching(/^[0-4]{3,5}$/);
  fc.assert(
    fc.property(
      fc.array(digits, { maxLength: 40 }),
      fc.integer({ min: 1, max: 6 }),
      fc.array(digits, { maxLength: 20 }),
      (codes, places, asked) => {
        const near = nearAny(codes, places);
        expect(asked.filter(near)).toEqual(asked.filter(code => codes.some(other => placesApart(code, other) < places)));
      },
    ),
    { numRuns: runs(400) },
  );
});

test("codes that open the same are never near", () => {
  expect(
    nearPairs(
      [
        { digits: "4821", opens: "1" },
        { digits: "4822", opens: "1" },
      ],
      2,
    ),
  ).toEqual([]);
  expect(
    nearPairs(
      [
        { digits: "4821", opens: "1" },
        { digits: "4822", opens: "2" },
      ],
      2,
    ),
  ).toEqual([[0, 1]]);
});

test("3,000 codes of six digits take under 50 ms", () => {
  let state = 7;
  const next = () => (state = (state * 1_103_515_245 + 12_345) % 2 ** 31);
  const codes = Array.from({ length: 3_000 }, () => ({ digits: String(next() % 1_000_000).padStart(6, "0"), opens: String(next() % 3) }));
  nearPairs(codes, 2);
  const times = Array.from({ length: 5 }, () => {
    const start = performance.now();
    nearPairs(codes, 2);
    return performance.now() - start;
  }).sort((a, b) => a - b);
  console.log(`3,000 codes: ${times[0]?.toFixed(1)} ms at best`);
  // Twice the figure: a loaded machine is no reason to fail.
  expect(times[0]).toBeLessThan(100);
});

describe("the Singleton bound", () => {
  // Published check: UpperBoundSingleton(4, 3, 5) = 25 in the manual of a coding theory package; for ten digits the same formula q^(n-d+1).
  test.each([
    [4, 1, 10_000],
    [4, 2, 1_000],
    [4, 3, 100],
    [4, 4, 10],
    [6, 2, 100_000],
  ])("%i digits, %i places apart: at most %i codes", (digits, places, most) => {
    expect(mostCodesApart(digits, places)).toBe(most);
  });

  test("is reached at two places by a check digit, and no search goes above it", () => {
    const withCheckDigit = Array.from({ length: 100 }, (_, i) => {
      const [a, b] = [Math.floor(i / 10), i % 10];
      return { digits: `${a}${b}${(a + b) % 10}`, opens: String(i) };
    });
    expect(nearPairs(withCheckDigit, 2)).toEqual([]);
    expect(withCheckDigit.length).toBe(mostCodesApart(3, 2));
    // Exact search for two digits: the most codes of which no two share a first or a second digit, row by row over the sets of second digits taken.
    let best = new Map<number, number>([[0, 0]]);
    for (let first = 0; first < 10; first++) {
      const next = new Map(best);
      for (const [taken, count] of best) {
        for (let second = 0; second < 10; second++) {
          const more = taken | (1 << second);
          if (more !== taken) next.set(more, Math.max(next.get(more) ?? 0, count + 1));
        }
      }
      best = next;
    }
    expect(Math.max(...best.values())).toBe(mostCodesApart(2, 2));
  });
});
