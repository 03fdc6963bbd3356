/** The simulated keypad against a second one, written apart, on keys that are legal or not. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { replay } from "../../../shared/keypad/replay.ts";
import { isWhole, runs } from "../../support/chance.ts";
import { asSecond, keyed } from "../../support/keying.ts";
import { drawFrom, drawnModel } from "../../support/random-model.ts";
import { dumped, heldIn, SecondKeypad } from "../../support/second-keypad.ts";

test("two keypads written apart take and refuse the same, and hold the same in the end", { timeout: 120_000 }, () => {
  const outcomes = new Map<string, number>();
  fc.assert(
    fc.property(fc.noShrink(fc.gen()), gen => {
      const draw = drawFrom(gen);
      const drawn = drawnModel(draw);
      if (!drawn) return;
      const { model } = drawn;
      const acts = keyed(model, draw);
      const first = replay(model, model.factory, acts);
      const second = new SecondKeypad(model);
      for (const act of acts) second.feel(act);
      const unread = second.end();
      expect(first.steps.map(asSecond)).toEqual(second.steps);
      expect(first.unread.length).toBe(unread);
      expect(first.inProgramming).toBe(second.programming);
      expect(dumped(model, heldIn(first.memory))).toEqual(second.dump());
      for (const { outcome } of second.steps) outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
    }),
    { numRuns: runs(600) },
  );
  console.log([...outcomes].map(([outcome, count]) => `${count} ${outcome}`).join(", "));
  // Every way of refusing has been met, or the comparison says little.
  if (!isWhole) return;
  expect([...outcomes.keys()].sort()).toEqual([
    "memory-full",
    "not-in-programming",
    "setting-range",
    "slot-kind",
    "slot-range",
    "slot-taken",
    "taken",
    "twin",
    "unknown-keys",
    "values-differ",
    "wrong-installer-code",
  ]);
});
