import fc from "fast-check";
import { expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { memoryOf } from "../../../shared/keypad/fitted-memory.ts";
import type { Memory, Slot } from "../../../shared/keypad/memory.ts";
import { planKeypad } from "../../../shared/plan/plan-keypad.ts";
import { printFitted } from "../../../shared/plan/print-fitted.ts";
import { recorded } from "../../../shared/plan/record.ts";
import { runs } from "../../support/chance.ts";
import { drawnMemory, drawnModel, picks, traits } from "./drawn.ts";

const numRuns = runs(2000);

/** One code in several places. */
function twinned(memory: Memory): Memory {
  const code = [...memory.slots.values()].find(slot => slot.code !== undefined && slot.number !== undefined)?.code;
  const slots = [...memory.slots].map(
    ([key, slot]) => [key, slot.number === undefined || slot.code === undefined || !code ? slot : { ...slot, code }] as const,
  );
  return { ...memory, slots: new Map(slots) };
}

/** A record keeps a code of a length that the keypad never takes: it may be there, asleep. */
function strangelyHeld(memory: Memory): Memory {
  const slots = [...memory.slots].map(
    ([key, slot], at) =>
      [key, at === 0 && slot.number !== undefined && slot.code !== undefined ? { ...slot, code: "1234567" } : slot] as const,
  );
  return { ...memory, slots: new Map(slots) };
}

/** A text wants a slot that the keypad does not have. */
function strangelyWanted(memory: Memory): Memory {
  const slot: Slot = { key: "1/77", fires: "1", number: 77, code: "1234567" };
  return { ...memory, slots: new Map([...memory.slots, [slot.key, slot]]) };
}

test("whatever a text wants and a record says, there is a plan that is proved, or a reason why there is none", () => {
  fc.assert(
    fc.property(
      traits,
      picks,
      picks,
      fc.boolean(),
      fc.boolean(),
      fc.boolean(),
      fc.boolean(),
      (drawn, old, next, twinBefore, twinWanted, strangeBefore, strangeWanted) => {
        const model = drawnModel(drawn);
        const [held, text] = [drawnMemory(model, old, false), drawnMemory(model, next, false)];
        const before = (strangeBefore ? strangelyHeld : (one: Memory) => one)(twinBefore ? twinned(held) : held);
        const wanted = (strangeWanted ? strangelyWanted : (one: Memory) => one)(twinWanted ? twinned(text) : text);
        const plan = planKeypad(model, before, wanted, { from: "fitted", knows: "all" });
        expect("cannot" in plan ? plan.cannot.length > 0 : plan.proof.reachesTarget && plan.proof.safeAtEveryEntry).toBe(true);
        if ("cannot" in plan) expect(plan.cannot + plan.instead).not.toMatch(/\d{3}/);
      },
    ),
    { numRuns },
  );
}, 120_000);

test("what is recorded, written down and read again leaves nothing to type", () => {
  fc.assert(
    fc.property(traits, picks, picks, (drawn, old, next) => {
      const model = drawnModel(drawn);
      const plan = planKeypad(model, drawnMemory(model, old, false), drawnMemory(model, next, true), { from: "fitted", knows: "all" });
      fc.pre(!("cannot" in plan));
      if ("cannot" in plan) return;
      const record = recorded(plan, { done: "all", doubt: new Set() });
      if ("refused" in record) throw new Error(record.refused);
      const text = printFitted("gate", model, "2026-11-20", record.memory, { code: () => undefined, tag: () => undefined });
      const decl = parse(text).tree.declarations[0];
      if (decl?.kind !== "fitted") throw new Error("a record is read as one");
      const read = memoryOf(model, decl.facts);
      expect(read.problems).toEqual([]);
      const again = planKeypad(model, read.memory, plan.target, { from: "fitted", knows: "all" });
      expect("cannot" in again ? again.cannot : again.counts).toEqual({ entries: 0, keys: 0 });
    }),
    { numRuns: runs(1000) },
  );
});
