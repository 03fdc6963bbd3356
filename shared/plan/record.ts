/** What a keypad holds after a visit: the entries of a plan that were taken, and those that nobody is sure of. */
import { apply } from "../keypad/apply.ts";
import type { Draft } from "../keypad/draft.ts";
import { draftOf, freeze, store } from "../keypad/draft.ts";
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { Memory, Operation, SlotKey } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { must } from "../must.ts";
import type { Plan, PlanEntry } from "./plan.ts";
import { touchedBy } from "./touched.ts";

/** Numbers of entries, as the sheet prints them. */
export interface Visit {
  readonly done: "all" | ReadonlySet<number>;
  /** Nobody is sure whether these were taken. */
  readonly doubt: ReadonlySet<number>;
}

export type Recorded =
  | {
      readonly memory: Memory;
      /** `nothing`: the keypad is as unknown as it was. */
      readonly knows: "all" | "nothing";
      /** How many entries went into the record, doubtful ones included. */
      readonly entries: number;
    }
  /** In words, naming entries by their numbers. */
  | { readonly refused: string };

/**
 * Applies what was typed of a plan to what the plan started from.
 *
 * A doubtful entry makes unknown what it would have changed. An entry that another one needs cannot be left out: the keypad
 * would not have taken that other, or would not be safe.
 */
export function recorded(plan: Plan, { done, doubt }: Visit): Recorded {
  const entries = plan.sessions.flatMap(session => session.entries);
  const refused = whyRefused(entries, done, doubt);
  if (refused !== undefined) return { refused };
  const visited = entries.filter(({ n }) => doubt.has(n) || isDone(done, n));
  if (plan.start.from === "unknown" && visited.length === 0) return { memory: plan.before, knows: "nothing", entries: 0 };
  // Where nobody is sure of an entry before it, the keypad may well take what the record alone would refuse.
  const model: Model = { ...plan.model, rewrite: "replaces", twins: "all fire" };
  const draft = draftOf(plan.before);
  for (const { n, operation } of visited) {
    if (doubt.has(n)) doubted(plan.model, draft, operation);
    else must(apply(model, draft, operation) === undefined, `entry ${n} of the plan can be taken`);
  }
  return { memory: freeze(draft), knows: "all", entries: visited.length };
}

/** `1-6,8` as numbers; undefined where it is nothing of the kind. Empty text is no entry. */
export function entryNumbers(text: string): ReadonlySet<number> | undefined {
  const numbers = new Set<number>();
  for (const part of text.split(",").map(one => one.trim())) {
    if (part === "") continue;
    const range = /^(\d{1,6})(?:\s*-\s*(\d{1,6}))?$/.exec(part);
    if (!range) return undefined;
    const [from, to] = [Number(range[1]), Number(range[2] ?? range[1])];
    if (from < 1 || to < from) return undefined;
    for (let n = from; n <= to; n++) numbers.add(n);
  }
  return numbers;
}

function isDone(done: Visit["done"], n: number): boolean {
  return done === "all" || done.has(n);
}

function whyRefused(entries: readonly PlanEntry[], done: Visit["done"], doubt: ReadonlySet<number>): string | undefined {
  const numbers = new Set(entries.map(entry => entry.n));
  const strange = [...(done === "all" ? [] : done), ...doubt].filter(n => !numbers.has(n)).sort((a, b) => a - b);
  if (strange.length > 0) {
    return entries.length === 0
      ? "this plan has no entries"
      : `there is no entry ${strange[0]}: the sheet's entries are 1 to ${entries.length}`;
  }
  const both = done === "all" ? [] : [...doubt].filter(n => done.has(n)).sort((a, b) => a - b);
  if (both.length > 0) return `entry ${both[0]} cannot be done and doubtful at once`;
  for (const { n, needs } of entries) {
    if (doubt.has(n) || !isDone(done, n)) continue;
    const left = needs.filter(need => !isDone(done, need) && !doubt.has(need));
    if (left.length > 0) return `entry ${n} needs entry ${left[0]}, which was left out: type that first, or record ${n} as doubtful`;
  }
  return undefined;
}

/** Nobody can say what there is now of all that the entry would have changed. */
function doubted(model: Model, draft: Draft, operation: Operation): void {
  switch (operation.operation) {
    case "put code":
    case "put tag": {
      const [key] = touchedBy(model, draft, operation).slots;
      must(key !== undefined, "an entry that writes has a place");
      const number = operation.slot === undefined ? {} : { number: operation.slot };
      const fires = operation.relay ?? draft.slots.get(key)?.fires;
      // Without numbers a place is known by what it may hold.
      const content =
        model.slots.addressing !== "unnumbered"
          ? {}
          : operation.operation === "put code"
            ? { code: operation.code }
            : { tag: operation.tag };
      store(draft, { key, ...(fires === undefined ? {} : { fires }), ...number, ...content, unknown: true });
      return;
    }
    case "clear slot":
    case "clear code":
    case "clear tag":
    case "set all-relay":
    case "clear all-relay": {
      const touched = touchedBy(model, draft, operation);
      for (const key of touched.slots) doubtPlace(model, draft, key);
      for (const key of touched.allRelay) {
        if (operation.operation !== "set all-relay" && !draft.allRelay.has(key)) continue;
        draft.allRelay.set(key, { ...(key === "" ? {} : { number: Number(key) }), unknown: true });
      }
      return;
    }
    case "set installer":
      doubtLength(model, draft, { installer: operation.code });
      draft.installer = undefined;
      return;
    case "set length":
      // The length before stays in the record: the next plan sets the new one again, which a keypad that has it takes as well.
      doubtLength(model, draft, { codeLength: operation.digits });
      return;
    case "set release":
      draft.releases.set(operation.relay, "unknown");
      return;
    case "set setting":
      draft.settings.set(operation.label, "unknown");
      return;
    case "clear all":
      for (const key of [...draft.slots.keys()]) doubtPlace(model, draft, key);
      for (const [key, { number }] of draft.allRelay)
        draft.allRelay.set(key, { ...(number === undefined ? {} : { number }), unknown: true });
      if (!model.operations.get("clear all")?.wipes) return;
      draft.installer = undefined;
      for (const relay of draft.releases.keys()) draft.releases.set(relay, "unknown");
      for (const label of draft.settings.keys()) draft.settings.set(label, "unknown");
  }
}

/** An empty place that was to be emptied is empty. */
function doubtPlace(model: Model, draft: Draft, key: SlotKey): void {
  const slot = draft.slots.get(key);
  if (!slot) return;
  const { code, tag, needsBoth, ...place } = slot;
  const content =
    model.slots.addressing === "unnumbered" ? { ...(code === undefined ? {} : { code }), ...(tag === undefined ? {} : { tag }) } : {};
  store(draft, { ...place, ...content, unknown: true });
}

/** Where a new code length may have taken the codes, nobody knows which are left. */
function doubtLength(model: Model, draft: Draft, next: Pick<Memory, "installer" | "codeLength">): void {
  const before = {
    ...(draft.installer === undefined ? {} : { installer: draft.installer }),
    ...(draft.codeLength === undefined ? {} : { codeLength: draft.codeLength }),
  };
  const same = codeLengthsInForce(model, before).join() === codeLengthsInForce(model, { ...before, ...next }).join();
  if (same || model.relength === "keeps") return;
  for (const [key, { code }] of [...draft.slots]) if (code !== undefined) doubtPlace(model, draft, key);
  for (const [key, { number }] of draft.allRelay) draft.allRelay.set(key, { ...(number === undefined ? {} : { number }), unknown: true });
}
