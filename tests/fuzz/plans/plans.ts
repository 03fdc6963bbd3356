/**
 * Any plan: random keypads, records and texts. What the planner answers is typed at a second keypad, written apart from the one that its own proof
 * uses, which must take every entry, arrive, and open nothing after any of them that neither the old nor the new state opens.
 */
import { deepEqual, equal, ok } from "node:assert/strict";
import fc from "fast-check";
import { encodeEnter } from "../../../shared/keypad/encode.ts";
import type { KeyGroup, Memory, Slot } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import type { Plan, PlanEntry } from "../../../shared/plan/plan.ts";
import { planKeypad } from "../../../shared/plan/plan-keypad.ts";
import { recorded } from "../../../shared/plan/record.ts";
import { drawnMemory, drawnModel, picks, traits } from "../../shared/plan/drawn.ts";
import { written } from "../../shared/plan/keypads.ts";
import { actsIn } from "../../support/keying.ts";
import type { Draw } from "../../support/random-model.ts";
import { SecondDoor } from "../../support/second-door.ts";
import { dumped, heldIn, SecondKeypad } from "../../support/second-keypad.ts";
import type { Part } from "../part.ts";
import type { Random } from "../random.ts";
import { drawOf, richMemory, richModel } from "./draw.ts";
import { forgotten, mayOpen } from "./unknown.ts";

const triples = 20;

export const plans: Part = {
  name: "plans",
  counted: "plans asked for",
  short: { random: 60 },
  attempt({ random, keep, counts }) {
    const draw = drawOf(random);
    const kind = draw.oneIn(2) ? small(random) : rich(draw);
    for (let i = 0; i < triples; i++) {
      const { model, text, before, wanted } = kind(i);
      // Of places that nobody knows the proof takes it that the installer can come in; the sheet says what to do where he cannot.
      const isForgotten = draw.oneIn(5) && new SecondDoor(model, heldIn(before)).enters();
      const record = isForgotten ? forgotten(model, before, () => draw.oneIn(3)) : before;
      const told = () => story(model, text, before, record, wanted);
      keep(told);
      const plan = planKeypad(model, record, wanted, { from: "fitted", knows: "all" });
      if ("cannot" in plan) {
        // A reason in words, in which no code stands.
        ok(plan.cannot.length > 0);
        ok(!/\d{3}/.test(plan.cannot + (plan.instead ?? "")));
        continue;
      }
      keep(() => `${told()}\n\nthe plan\n${entriesOf(plan).map(said).join("\n")}\n`);
      // After a reset nothing of what was held counts; a keypad that is emptied by one entry opens what it is left with.
      const truth = plan.reset ? plan.before : before;
      const allowed = plan.reset ? mayOpen(model, truth, truth, plan.target) : mayOpen(model, truth, record, plan.target);
      if (entriesOf(plan).some(wipes(model))) for (const pair of opens(model, model.factory)) allowed.add(pair);
      typeWhole(model, truth, plan, allowed);
      if (record === before) typeSome(model, truth, plan, allowed, draw);
    }
    counts(triples);
  },
};

interface Triple {
  readonly model: Model;
  /** The model as text, or what it was drawn from. */
  readonly text: string;
  readonly before: Memory;
  readonly wanted: Memory;
}

/** A keypad with few and short codes, so that they meet, shadow each other and sleep. */
function small(random: Random): (at: number) => Triple {
  const one = <T>(arbitrary: fc.Arbitrary<T>, count: number) => fc.sample(arbitrary, { seed: random.bits() | 0, numRuns: count });
  const trait = one(traits, 1)[0] as Parameters<typeof drawnModel>[0];
  const model = drawnModel(trait);
  const drawn = one(picks, 2 * triples);
  const pick = (at: number) => drawn[at] as Parameters<typeof drawnMemory>[1];
  return at => ({
    model,
    text: JSON.stringify(trait, undefined, 1),
    before: drawnMemory(model, pick(2 * at), false),
    wanted: drawnMemory(model, pick(2 * at + 1), random.oneIn(2)),
  });
}

/** A keypad whose entries are as different as a manual can have them. */
function rich(draw: Draw): (at: number) => Triple {
  const { model, text } = richModel(draw);
  return () => {
    const before = richMemory(model, draw, model.factory, draw.upTo(10));
    // A text that was changed a little, or one of its own.
    const wanted = richMemory(model, draw, draw.oneIn(2) ? before : model.factory, draw.upTo(10));
    return {
      model,
      text,
      before,
      wanted: {
        ...wanted,
        releases: new Map([...before.releases, ...wanted.releases]),
        settings: new Map([...before.settings, ...wanted.settings]),
      },
    };
  };
}

/** Types all of it, session by session. */
function typeWhole(model: Model, truth: Memory, plan: Plan, allowed: ReadonlySet<string>): void {
  const keypad = new SecondKeypad(model, truth);
  for (const { enter, entries, leave } of plan.sessions) {
    taken(keypad, enter, "enter");
    ok(keypad.programming);
    for (const entry of entries) {
      taken(keypad, entry.groups, entry.operation.operation);
      safe(model, keypad, allowed);
    }
    if (leave.length > 0) taken(keypad, leave, "leave");
    else if (model.session === "many entries") keypad.lapse();
    ok(!keypad.programming);
  }
  deepEqual(keypad.dump(), dumped(model, heldIn(plan.target)));
  deepEqual(new SecondDoor(model, keypad.held()).opens(), opens(model, plan.target));
}

/** Types some of the entries, each with all that it needs: as safe, and the record says what is then held. */
function typeSome(model: Model, truth: Memory, plan: Plan, allowed: ReadonlySet<string>, draw: Draw): void {
  const keypad = new SecondKeypad(model, truth);
  const done = new Set<number>();
  for (const entry of entriesOf(plan)) {
    if (draw.oneIn(3) || !entry.needs.every(need => done.has(need)) || entry.groups.some(({ is }) => is === "installer")) continue;
    if (!keypad.programming) taken(keypad, encodeEnter(model, keypad.held().installer ?? ""), "enter");
    taken(keypad, entry.groups, entry.operation.operation);
    safe(model, keypad, allowed);
    done.add(entry.n);
  }
  const record = recorded(plan, { done, doubt: new Set() });
  ok(!("refused" in record));
  deepEqual(keypad.dump(), dumped(model, heldIn(record.memory)));
}

/** The keypad takes these keys as just this. */
function taken(keypad: SecondKeypad, groups: readonly KeyGroup[], what: string): void {
  const before = keypad.steps.length;
  for (const act of actsIn(groups)) keypad.feel(act);
  equal(keypad.end(), 0);
  const steps = keypad.steps.slice(before);
  equal(steps.length, 1, `${what} is one entry, not ${steps.map(step => step.what).join(", ")}`);
  equal(steps[0]?.outcome, "taken", `${what} is taken`);
  ok(steps[0]?.what.startsWith(what), `${what} is not taken as ${steps[0]?.what}`);
}

/** Whoever stops here leaves nothing open that neither the old nor the new state opens, and can come back. */
function safe(model: Model, keypad: SecondKeypad, allowed: ReadonlySet<string>): void {
  const door = new SecondDoor(model, keypad.held());
  for (const pair of door.opens()) ok(allowed.has(pair), "nothing opens but what opened before or is wanted");
  ok(door.enters(), "the installer code enters");
}

function opens(model: Model, memory: Memory): ReadonlySet<string> {
  return new SecondDoor(model, heldIn(memory)).opens();
}

function entriesOf(plan: Plan): readonly PlanEntry[] {
  return plan.sessions.flatMap(session => session.entries);
}

function wipes(model: Model): (entry: PlanEntry) => boolean {
  return ({ operation }) => operation.operation === "clear all" && model.operations.get("clear all")?.wipes === true;
}

function said({ n, operation, needs }: PlanEntry): string {
  return `${n} ${written(operation)}${needs.length > 0 ? ` after ${needs.join()}` : ""}`;
}

function story(model: Model, text: string, before: Memory, record: Memory, wanted: Memory): string {
  const unknown = [...record.slots.values()].filter((slot: Slot) => slot.unknown).map(({ key }) => key);
  const allRelay = [...record.allRelay].filter(([, stored]) => stored.unknown).map(([key]) => `all-relay ${key}`);
  const lines = ["before", ...dumped(model, heldIn(before)), `unknown ${[...unknown, ...allRelay].join(", ")}`];
  return [text, "", ...lines, "", "wanted", ...dumped(model, heldIn(wanted))].join("\n");
}
