import { expect, test } from "vitest";
import { planKeypad } from "../../../shared/plan/plan-keypad.ts";
import { largeMemories, largeModel } from "./large.ts";

/** Milliseconds of the fastest of several runs: what else the machine does only adds. */
function fastest(runs: number, run: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i++) {
    const start = performance.now();
    run();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

test.each(["rewrite replaces twins refused", "rewrite refused twins all fire"])(
  "3,000 slots and half of them changed, %s: planned and proved, and ten times as many take little more than ten times as long",
  rules => {
    const model = largeModel(rules);
    const [some, many] = [largeMemories(model, 3_000), largeMemories(model, 30_000)];
    const plan = ({ before, wanted }: typeof some) => {
      const found = planKeypad(model, before, wanted, { from: "fitted", knows: "all" });
      if ("cannot" in found) throw new Error(found.cannot);
      return found;
    };
    const { counts, proof } = plan(some);
    expect(counts.entries).toBeGreaterThanOrEqual(1_500);
    expect(proof).toEqual({ reachesTarget: true, safeAtEveryEntry: true });
    const [small, large] = [fastest(6, () => plan(some)), fastest(3, () => plan(many))];
    // n log n would be 12.6 times; twice that for what the machine does besides, and for its caches.
    expect(large / small).toBeLessThan(26);
  },
  60_000,
);
