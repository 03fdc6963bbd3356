import { expect, test } from "vitest";
import { BrokenInvariant } from "../../../shared/must.ts";
import type { PlanEntry, PlanSession } from "../../../shared/plan/plan.ts";
import { prove } from "../../../shared/plan/prove.ts";
import { memory, modelOf, planOf } from "./keypads.ts";

const model = modelOf(`
  slots 1..9 per relay
  codes 4 | 5 digits
  length free
  rewrite replaces twins all fire
  enter OK {installer} OK
  leave OK OK
  put code 7 {slot} {code} OK
  clear slot 9 {slot} OK
  set installer 31 {code} OK
  open code {code}
  keys 0..9 OK
  factory { installer code 9753 }`);
const before = memory(model, "installer code 9753 relay 1 { 1 code 1234 2 code 12345 3 code 5555 }");
const wanted = memory(model, "installer code 9753 relay 1 { 3 code 7777 4 code 8888 }");
const plan = planOf(model, before, wanted);
const [session] = plan.sessions as [PlanSession];

const changed = (change: (entries: readonly PlanEntry[]) => readonly PlanEntry[]): readonly PlanSession[] => [
  { ...session, entries: change(session.entries) },
];
const proof = (sessions: readonly PlanSession[]) => () => prove(model, before, wanted, sessions);

test("what was asleep is gone before what kept it so, and the proof says that it holds", () => {
  expect(session.entries.map(({ operation }) => "slot" in operation && operation.slot)).toEqual([2, 1, 3, 4]);
  expect(proof(plan.sessions)()).toEqual({ reachesTarget: true, safeAtEveryEntry: true });
});

test.each([
  [
    "an entry is missing",
    (entries: readonly PlanEntry[]) => entries.slice(0, -1),
    "the plan's keys reach exactly the memory that is wanted",
  ],
  [
    "what kept a code asleep goes first",
    ([a, b, ...rest]: readonly PlanEntry[]) => [b as PlanEntry, a as PlanEntry, ...rest],
    "after entry 2 nothing opens but what opened before or is wanted",
  ],
  [
    "a key is missing",
    (entries: readonly PlanEntry[]) => entries.map(entry => (entry.n === 3 ? { ...entry, groups: entry.groups.slice(0, -1) } : entry)),
    "entry 3 is read back as the operation it stands for, and taken",
  ],
  [
    "keys of another slot",
    (entries: readonly PlanEntry[]) => entries.map(entry => (entry.n === 3 ? { ...entry, groups: entries[3]?.groups ?? [] } : entry)),
    "entry 3 is read back with the same fields",
  ],
])("no proof where %s", (_, change, what) => {
  expect(proof(changed(change))).toThrow(BrokenInvariant);
  expect(proof(changed(change))).toThrow(what);
});

test("no proof without a session for what is to be changed", () => {
  expect(proof([])).toThrow("where nothing is typed, what is wanted is there");
});

test("a failed proof names the entry and holds no code", () => {
  try {
    proof(changed(([a, b, ...rest]) => [b as PlanEntry, a as PlanEntry, ...rest]))();
    expect.unreachable();
  } catch (error) {
    expect(String(error)).not.toMatch(/\d{4}/);
  }
});
