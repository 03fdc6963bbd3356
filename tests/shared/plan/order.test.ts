import fc from "fast-check";
import { expect, test } from "vitest";
import { apply } from "../../../shared/keypad/apply.ts";
import { doorOf } from "../../../shared/keypad/door.ts";
import { draftOf, freeze } from "../../../shared/keypad/draft.ts";
import type { Memory, Operation } from "../../../shared/keypad/memory.ts";
import { sameMemory } from "../../../shared/keypad/memory-equal.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import type { PlanEntry } from "../../../shared/plan/plan.ts";
import { planKeypad } from "../../../shared/plan/plan-keypad.ts";
import { isWhole, runs } from "../../support/chance.ts";
import { drawnMemory, drawnModel, picks, traits } from "./drawn.ts";
import { written } from "./keypads.ts";
import { isSafe, pairs } from "./shortest.ts";

function plannedEntries(model: Model, before: Memory, wanted: Memory): readonly PlanEntry[] {
  const asleep = [...doorOf(model, before).asleep, ...doorOf(model, wanted).asleep].some(one => one.why !== "half" && one.why !== "no way");
  fc.pre(!asleep && !doorOf(model, before).blocksEnter && !doorOf(model, wanted).blocksEnter);
  const plan = planKeypad(model, before, wanted, { from: "fitted", knows: "all" });
  fc.pre(!("cannot" in plan));
  return "cannot" in plan ? [] : plan.sessions.flatMap(({ entries }) => entries);
}

/** After how many entries nothing is open any more that should not be; undefined where the order is refused or unsafe. */
function shutAfter(model: Model, before: Memory, wanted: Memory, operations: readonly Operation[]): number | undefined {
  const allowed = pairs(model, before);
  const open = pairs(model, wanted);
  for (const pair of open) allowed.add(pair);
  const draft = draftOf(before);
  let shut = 0;
  for (const [index, operation] of operations.entries()) {
    if (apply(model, draft, operation) || !isSafe(model, freeze(draft), allowed)) return undefined;
    if (![...pairs(model, freeze(draft))].every(pair => open.has(pair))) shut = index + 2;
  }
  if (shut === 0 && ![...pairs(model, before)].every(pair => open.has(pair))) shut = 1;
  return sameMemory(freeze(draft), wanted, model) ? shut : undefined;
}

function* permutations<T>(items: readonly T[]): Iterable<readonly T[]> {
  if (items.length === 0) yield [];
  for (const [index, item] of items.entries())
    for (const rest of permutations([...items.slice(0, index), ...items.slice(index + 1)])) yield [item, ...rest];
}

test("no other order of a plan's entries shuts sooner what must not open", () => {
  let compared = 0;
  fc.assert(
    fc.property(traits, picks, picks, (drawn, old, next) => {
      // A code that is put to sleep by what is written is not shut for good: it is cleared first even where sleeping would come sooner.
      const model = drawnModel({ ...drawn, twins: drawn.twins === "first fires" ? "all fire" : drawn.twins, acts: "after a pause" });
      const before = drawnMemory(model, old, false);
      // A new installer code, and a length, come first whatever else there is.
      const same = drawnMemory(model, { ...next, installer: old.installer, length: old.length, release: old.release }, true);
      const entries = plannedEntries(model, before, same);
      fc.pre(entries.length > 1 && entries.length <= 5 && entries.every(({ operation }) => operation.operation !== "clear all"));
      const operations = entries.map(({ operation }) => operation);
      const mine = shutAfter(model, before, same, operations);
      if (mine === undefined) throw new Error("the plan's own order is safe");
      let best = mine;
      for (const order of permutations(operations)) best = Math.min(best, shutAfter(model, before, same, order) ?? best);
      compared++;
      expect(mine, operations.map(written).join(", ")).toBe(best);
    }),
    { numRuns: runs(400) },
  );
  if (isWhole) expect(compared).toBeGreaterThan(300);
}, 60_000);

test("what may be typed again changes nothing and is not refused; what may not is refused", () => {
  const seen = new Set<string>();
  fc.assert(
    fc.property(traits, picks, picks, (drawn, old, next) => {
      const model = drawnModel(drawn);
      const [before, wanted] = [drawnMemory(model, old, false), drawnMemory(model, next, true)];
      const draft = draftOf(before);
      for (const { operation, repeatable } of plannedEntries(model, before, wanted)) {
        expect(apply(model, draft, operation)).toBeUndefined();
        const once = freeze(draft);
        const again = apply(model, draft, operation);
        seen.add(`${operation.operation} ${repeatable}`);
        expect([again === undefined, sameMemory(freeze(draft), once, model)], written(operation)).toEqual([repeatable, true]);
      }
    }),
    { numRuns: runs(1000) },
  );
  expect(seen).toContain("put code true");
  expect(seen).toContain("put code false");
});
