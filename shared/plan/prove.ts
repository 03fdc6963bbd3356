/** The proof of a plan: its own keys, replayed on the simulated keypad, reach the target and are safe after every entry. */
import { apply } from "../keypad/apply.ts";
import type { Draft } from "../keypad/draft.ts";
import { draftOf } from "../keypad/draft.ts";
import type { Act, KeyGroup, Memory, Operation, ReplayStep } from "../keypad/memory.ts";
import { sameMemory } from "../keypad/memory-equal.ts";
import type { Model } from "../keypad/model.ts";
import { replay } from "../keypad/replay.ts";
import { must } from "../must.ts";
import type { Listened } from "./openings.ts";
import { Openings, Pairs, rivalsOf } from "./openings.ts";
import type { Plan, PlanSession } from "./plan.ts";
import { touchedBy } from "./touched.ts";

/**
 * Proves that the sessions take `before` to `target`, and that after each entry nothing opens but what opened before or is wanted,
 * and the installer code in force still enters.
 *
 * Of a memory with unknown places this is the proof for every memory that the record allows: an unknown place is taken to be
 * empty, which the record allows; whatever else it holds stays there until its own entry, which empties or replaces it whole,
 * and counts as open before, since nobody can say that it was not. That no unknown place is left is part of the arrival.
 *
 * @param doors what opens in `before`, and what may open meanwhile, where that is computed already; used up by the proof.
 * @returns the proof, for the plan.
 * @throws BrokenInvariant naming the entry at which it fails; a plan that fails is never written out.
 */
export function prove(
  model: Model,
  before: Memory,
  target: Memory,
  sessions: readonly PlanSession[],
  doors?: { readonly before: Openings; readonly allowed: Pairs },
): Plan["proof"] {
  if (sessions.length === 0) {
    must(sameMemory(before, target, model), "where nothing is typed, what is wanted is there");
    return { reachesTarget: true, safeAtEveryEntry: true };
  }
  const { steps, memory, unread, inside } = replayed(model, before, sessions);
  const watch = new Watch(model, before, target, doors);
  let at = 0;
  for (const session of sessions) {
    expectTaken(steps[at++], "enter", "a session enters programming mode");
    for (const entry of session.entries) {
      const step = steps[at++];
      const name = `entry ${entry.n}`;
      expectTaken(step, entry.operation.operation, `${name} is read back as the operation it stands for, and taken`);
      must(sameOperation(step?.operation as Operation, entry.operation), `${name} is read back with the same fields`);
      watch.take(entry.operation, name);
    }
    if (session.leave.length > 0) expectTaken(steps[at++], "leave", "a session leaves programming mode");
  }
  must(at === steps.length && unread === 0, "a plan has no keys but its sessions'");
  must(!inside, "a plan ends outside programming mode");
  must(sameMemory(memory, target, model), "the plan's keys reach exactly the memory that is wanted");
  return { reachesTarget: true, safeAtEveryEntry: true };
}

interface Run {
  readonly steps: readonly ReplayStep[];
  readonly memory: Memory;
  /** Acts that no entry took. */
  readonly unread: number;
  /** Programming mode is still on at the end. */
  readonly inside: boolean;
}

/** All sessions in one go; where programming mode is left by waiting, which no key shows, one after the other. */
function replayed(model: Model, before: Memory, sessions: readonly PlanSession[]): Run {
  const waits = model.session === "many entries" && !model.operations.has("leave");
  const runs = waits ? sessions.map(session => [session]) : [sessions];
  const steps: ReplayStep[] = [];
  let memory = before;
  let unread = 0;
  let inside = false;
  for (const run of runs) {
    const acts: Act[] = [];
    for (const session of run) {
      push(acts, session.enter);
      for (const entry of session.entries) push(acts, entry.groups);
      push(acts, session.leave);
    }
    const result = replay(model, memory, acts);
    unread += result.unread.length;
    inside ||= !waits && result.inProgramming;
    for (const step of result.steps) steps.push(step);
    memory = result.memory;
  }
  return { steps, memory, unread, inside };
}

function push(acts: Act[], groups: readonly KeyGroup[]): void {
  for (const group of groups) for (const act of group.acts) acts.push(act);
}

function expectTaken(step: ReplayStep | undefined, operation: string, what: string): void {
  must(step?.taken === true && step.operation.operation === operation, what);
}

function sameOperation(one: Operation, other: Operation): boolean {
  const [fields, others] = [Object.entries(one), other as unknown as { readonly [field: string]: unknown }];
  return fields.length === Object.keys(other).length && fields.every(([field, value]) => others[field] === value);
}

/** Watches what opens while entries are taken: only what an entry touches is looked at again. */
class Watch {
  readonly #model: Model;
  readonly #draft: Draft;
  readonly #allowed: Pairs;
  #openings: Openings;
  /** Strings stored that must not fire, by their own text and by the texts of what keeps them from firing. */
  readonly #hazards = new Map<string, Set<Listened>>();
  #enterRivals: ReadonlySet<string> = new Set();

  constructor(model: Model, before: Memory, target: Memory, doors?: { readonly before: Openings; readonly allowed: Pairs }) {
    this.#model = model;
    this.#draft = draftOf(before);
    this.#openings = doors?.before ?? new Openings(model, before);
    this.#allowed = doors?.allowed ?? new Pairs().add(this.#openings).add(new Openings(model, target));
    this.#begin("the beginning");
  }

  /** @throws BrokenInvariant where the entry is refused, or something opens after it that must not. */
  take(operation: Operation, name: string): void {
    const touched = touchedBy(this.#model, this.#draft, operation);
    const relengths =
      operation.operation === "set installer" || operation.operation === "set length" || operation.operation === "clear all";
    must(apply(this.#model, this.#draft, operation) === undefined, `${name} is not refused`);
    if (relengths) {
      if (operation.operation === "clear all" && this.#model.operations.get("clear all")?.wipes) {
        this.#allowed.add(new Openings(this.#model, this.#model.factory));
      }
      this.#openings = new Openings(this.#model, this.#draft);
      this.#begin(name);
      return;
    }
    const changed = new Set<string>();
    for (const key of touched.slots) {
      const slot = this.#draft.slots.get(key);
      for (const text of this.#openings.setSlot(key, slot)) changed.add(text);
      this.#watch(this.#openings.at(key));
    }
    for (const key of touched.allRelay) {
      for (const text of this.#openings.setAllRelay(key, this.#draft.allRelay.get(key))) changed.add(text);
      this.#watch(this.#openings.at(`all-relay ${key}`));
    }
    this.#check(changed, name);
  }

  #begin(name: string): void {
    this.#hazards.clear();
    for (const string of this.#openings.all()) this.#watch([string]);
    const enter = this.#openings.at("enter")[0];
    this.#enterRivals = new Set(enter ? [...rivalsOf(this.#model, enter.symbols), enter.text] : []);
    for (const strings of this.#hazards.values()) for (const string of strings) this.#mustSleep(string, name);
    this.#mustEnter(name);
  }

  #watch(strings: readonly Listened[]): void {
    for (const string of strings) {
      if (!this.#allowed.lacks(string)) continue;
      for (const text of [string.text, ...rivalsOf(this.#model, string.symbols)]) {
        const watched = this.#hazards.get(text);
        if (watched) watched.add(string);
        else this.#hazards.set(text, new Set([string]));
      }
    }
  }

  #check(changed: ReadonlySet<string>, name: string): void {
    let enters = false;
    for (const text of changed) {
      for (const string of this.#hazards.get(text) ?? []) this.#mustSleep(string, name);
      enters ||= this.#enterRivals.has(text);
    }
    if (enters) this.#mustEnter(name);
  }

  #mustSleep(string: Listened, name: string): void {
    for (const relay of this.#openings.fires(string)) {
      must(this.#allowed.has(string.text, relay), `after ${name} nothing opens but what opened before or is wanted`);
    }
  }

  #mustEnter(name: string): void {
    const enter = this.#openings.at("enter")[0];
    must(enter && this.#openings.blocking(enter).length === 0, `after ${name} the installer code still enters programming mode`);
  }
}
