import { describe, expect, test } from "vitest";
import { operatorSeconds, taskSeconds } from "../../shared/plan/time.ts";
import published from "./published.json";

/**
 * Operator times: Card, Moran, Newell, CACM 23(7) 396-410 (1980), as reprinted by two university pages.
 * Worked examples: lecture slides on the 1980 paper (replacing a five-letter word with a line editor and with a mouse editor),
 * and a paper citing it (ticking a box).
 */
describe("the Keystroke-Level Model", () => {
  test("operators have the published times; a key is at the rate for complex codes", () => {
    const { K_complex_codes, P, M, H } = published.klm.ops;
    expect(operatorSeconds).toEqual({ key: K_complex_codes, point: P, prepare: M, home: H });
  });

  test.each([
    ["replacing a word with a line editor", { prepares: 4, keys: 15 }, 0],
    ["replacing a word with a mouse editor", { prepares: 2, keys: 8, homes: 2, points: 1 }, 1],
    ["ticking a box", { points: 1, prepares: 1, keys: 1 }, 2],
  ] as const)("%s takes what is published", (_, task, example) => {
    const outside = published.klm.examples[example];
    expect(taskSeconds(task, outside?.K)).toBeCloseTo(outside?.seconds ?? Number.NaN, 6);
  });
});
