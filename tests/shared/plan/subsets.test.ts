import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { apply } from "../../../shared/keypad/apply.ts";
import { doorOf } from "../../../shared/keypad/door.ts";
import { draftOf, freeze } from "../../../shared/keypad/draft.ts";
import type { Memory } from "../../../shared/keypad/memory.ts";
import { sameMemory } from "../../../shared/keypad/memory-equal.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import type { Plan, PlanEntry } from "../../../shared/plan/plan.ts";
import { planKeypad } from "../../../shared/plan/plan-keypad.ts";
import { recorded } from "../../../shared/plan/record.ts";
import { runs } from "../../support/chance.ts";
import { drawnMemory, drawnModel, picks, traits } from "./drawn.ts";
import { written } from "./keypads.ts";
import { compareCosts, costOf, isSafe, pairs } from "./shortest.ts";

const numRuns = runs(1200);
const chosen = fc.array(fc.boolean(), { minLength: 12, maxLength: 12 });

/** Entries that may be taken while the others are left out: each with all that it needs. */
function allowedSubset(entries: readonly PlanEntry[], wants: readonly boolean[]): readonly PlanEntry[] {
  const taken = new Set<number>();
  return entries.filter(({ n, needs }, at) => {
    if (!wants[at % wants.length] || !needs.every(need => taken.has(need))) return false;
    taken.add(n);
    return true;
  });
}

function drawnPlan(model: Model, before: Memory, wanted: Memory): Plan {
  const door = doorOf(model, wanted);
  fc.pre(!door.blocksEnter && !doorOf(model, before).blocksEnter && door.asleep.every(one => one.why === "half" || one.why === "no way"));
  const plan = planKeypad(model, before, wanted, { from: "fitted", knows: "all" });
  fc.pre(!("cannot" in plan) && plan.start.from === "fitted");
  if ("cannot" in plan) throw new Error("unreachable");
  return plan;
}

const story = (plan: Plan, taken: readonly PlanEntry[]) =>
  JSON.stringify({
    plan: plan.sessions.flatMap(({ entries }) => entries.map(({ n, operation, needs }) => `${n} ${written(operation)} after ${needs}`)),
    taken: taken.map(({ n }) => n),
    before: [...plan.before.slots.values()],
    wanted: [...plan.target.slots.values()],
  });

describe("an interrupted visit", () => {
  test("is safe wherever it stops, and what is left is planned again with no more entries than were left", () => {
    fc.assert(
      fc.property(traits, picks, picks, chosen, (drawn, old, next, wants) => {
        const model = drawnModel(drawn);
        const [before, wanted] = [drawnMemory(model, old, false), drawnMemory(model, next, true)];
        const plan = drawnPlan(model, before, wanted);
        const entries = plan.sessions.flatMap(session => session.entries);
        const taken = allowedSubset(entries, wants);
        const allowed = pairs(model, before);
        for (const pair of pairs(model, wanted)) allowed.add(pair);
        if (entries.some(({ operation }) => operation.operation === "clear all") && model.operations.get("clear all")?.wipes) return;
        const draft = draftOf(before);
        for (const { operation } of taken) {
          expect(apply(model, draft, operation), story(plan, taken)).toBeUndefined();
          expect(isSafe(model, freeze(draft), allowed), story(plan, taken)).toBe(true);
        }
        const record = recorded(plan, { done: new Set(taken.map(({ n }) => n)), doubt: new Set() });
        if ("refused" in record) throw new Error(record.refused);
        expect(sameMemory(record.memory, freeze(draft), model)).toBe(true);

        const again = planKeypad(model, record.memory, wanted, { from: "fitted", knows: "all" });
        if ("cannot" in again) throw new Error(`${again.cannot} ${story(plan, taken)}`);
        const left = entries.filter(entry => !taken.includes(entry)).map(({ operation }) => operation);
        const now = again.sessions.flatMap(session => session.entries).map(({ operation }) => operation);
        const [mine, theirs] = [costOf(model, now, "97"), costOf(model, left, "97")];
        const difference = compareCosts({ ...mine, keys: 0 }, { ...theirs, keys: 0 });
        expect(difference, `${now.map(written)} ${story(plan, taken)}`).toBeLessThanOrEqual(0);
      }),
      { numRuns },
    );
  }, 120_000);

  test("a doubtful entry is unknown, and the next plan is right whether it was taken or not", () => {
    fc.assert(
      fc.property(traits, picks, picks, chosen, fc.nat(11), fc.boolean(), (drawn, old, next, wants, which, tookIt) => {
        const model = drawnModel(drawn);
        const [before, wanted] = [drawnMemory(model, old, false), drawnMemory(model, next, true)];
        const plan = drawnPlan(model, before, wanted);
        const entries = plan.sessions.flatMap(session => session.entries);
        const visited = allowedSubset(entries, wants);
        // The last of a visit is the doubtful one: what came after it would have shown.
        const upTo = visited.slice(0, (which % (visited.length + 1)) + 1);
        const doubtful = upTo.at(-1);
        fc.pre(doubtful !== undefined);
        if (!doubtful) return;
        const record = recorded(plan, {
          done: new Set(upTo.filter(one => one !== doubtful).map(({ n }) => n)),
          doubt: new Set([doubtful.n]),
        });
        if ("refused" in record) throw new Error(record.refused);
        const again = planKeypad(model, record.memory, wanted, { from: "fitted", knows: "all" });
        if ("cannot" in again) return;
        const truth = draftOf(before);
        for (const { operation } of tookIt ? upTo : upTo.filter(one => one !== doubtful)) apply(model, truth, operation);
        const held = freeze(truth);
        // What an unknown place holds counts as open before: it may as well have been empty, or the only thing there.
        const allowed = pairs(model, held);
        for (const pair of pairs(model, wanted)) allowed.add(pair);
        for (const slot of held.slots.values())
          if (record.memory.slots.get(slot.key)?.unknown)
            for (const pair of pairs(model, { ...held, slots: new Map([[slot.key, slot]]), allRelay: new Map() })) allowed.add(pair);
        for (const [key, stored] of held.allRelay)
          if (record.memory.allRelay.get(key)?.unknown)
            for (const pair of pairs(model, { ...held, slots: new Map(), allRelay: new Map([[key, stored]]) })) allowed.add(pair);
        // Nor does the record promise that an unknown place kept something else from firing.
        const emptied = {
          ...held,
          slots: new Map([...held.slots].filter(([key]) => !record.memory.slots.get(key)?.unknown)),
          allRelay: new Map([...held.allRelay].filter(([key]) => !record.memory.allRelay.get(key)?.unknown)),
        };
        for (const pair of pairs(model, emptied)) allowed.add(pair);
        for (const { operation, n } of again.sessions.flatMap(session => session.entries)) {
          const what = `${n} ${written(operation)} of ${again.sessions.flatMap(s => s.entries.map(e => written(e.operation)))} doubt ${written(doubtful.operation)} ${tookIt} ${story(plan, upTo)}`;
          expect(apply(model, truth, operation), what).toBeUndefined();
          if (!doorOf(model, freeze(truth)).blocksEnter) expect(isSafe(model, freeze(truth), allowed), what).toBe(true);
        }
        expect(sameMemory(freeze(truth), again.target, model), story(plan, upTo)).toBe(true);
      }),
      { numRuns },
    );
  }, 120_000);
});
