import fc from "fast-check";
import { expect, test } from "vitest";
import { doorOf } from "../../../shared/keypad/door.ts";
import { planKeypad } from "../../../shared/plan/plan-keypad.ts";
import { isWhole, runs } from "../../support/chance.ts";
import { drawnMemory, drawnModel, picks, traits } from "./drawn.ts";
import { written } from "./keypads.ts";
import { compareCosts, costOf, shortest } from "./shortest.ts";

const numRuns = runs(2000);

/** Two thousand small keypads of every kind: `rewrite`, `twins`, `relength`, addressing, pairs, sets, missing entries, what sleeps. */
test("a plan is as short as the shortest that trying everything finds, and there is none where that finds none", () => {
  const counts = { planned: 0, impossible: 0, asleep: 0 };
  fc.assert(
    fc.property(traits, picks, picks, (drawn, old, next) => {
      const model = drawnModel(drawn);
      const [before, wanted] = [drawnMemory(model, old, false), drawnMemory(model, next, true)];
      const doors = { before: doorOf(model, before), wanted: doorOf(model, wanted) };
      const sleeps = (one: (typeof doors.wanted.asleep)[number]) => one.why !== "half" && one.why !== "no way";
      // What the checks refuse is never planned: a wanted code that sleeps, an installer code that cannot be entered.
      fc.pre(!doors.wanted.blocksEnter && !doors.before.blocksEnter && !doors.wanted.asleep.some(sleeps));
      const plan = planKeypad(model, before, wanted, { from: "fitted", knows: "all" });
      const best = shortest(model, before, wanted);
      const operations = "cannot" in plan ? [] : plan.sessions.flatMap(session => session.entries.map(entry => entry.operation));
      const singly = !("cannot" in plan) && !operations.some(({ operation }) => operation === "clear all");
      const story = JSON.stringify({
        best: best?.operations.map(written),
        plan: "cannot" in plan ? plan.cannot : operations.map(written),
        before: [...before.slots.values()],
        wanted: [...wanted.slots.values()],
      });
      expect(singly, story).toBe(best !== undefined);
      if (!best) {
        counts.impossible++;
        return;
      }
      counts.planned++;
      if (doors.before.asleep.some(sleeps)) counts.asleep++;
      expect(compareCosts(costOf(model, operations, "97"), best.cost), story).toBe(0);
    }),
    { numRuns },
  );
  if (isWhole) expect(counts.planned).toBeGreaterThan(numRuns / 2);
  if (isWhole) expect(counts.impossible).toBeGreaterThan(numRuns / 20);
  if (isWhole) expect(counts.asleep).toBeGreaterThan(numRuns / 20);
}, 600_000);
