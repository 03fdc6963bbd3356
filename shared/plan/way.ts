/** The way to what is wanted: by single entries, after emptying the keypad, or after a reset by hand. Not yet keys, and not proved. */
import { apply } from "../keypad/apply.ts";
import { draftOf, freeze } from "../keypad/draft.ts";
import type { Memory, TagId } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { CannotPlan, Plan, Start } from "./plan.ts";
import type { Step } from "./steps.ts";
import type { Transition } from "./transition.ts";
import { transition } from "./transition.ts";
import { whyImpossible } from "./wanted-possible.ts";

export interface PlanOptions {
  /** Empty the whole keypad first, though single entries would do. */
  readonly clearAll?: boolean;
  /** Tags that cannot be presented any more. */
  readonly lost?: ReadonlySet<TagId>;
}

/**
 * Tries single entries first, then `clear all`, then a reset: what empties everything shuts everyone out meanwhile. Where nothing
 * is known there is nobody to shut out that anyone knows of, and single entries, one for every place there is, come last.
 */
export function wayTo(
  model: Model,
  before: Memory,
  stated: Memory,
  start: Start,
  options: PlanOptions = {},
): { readonly way: Way; readonly transition: Transition } | CannotPlan {
  if (options.clearAll && !model.operations.has("clear all"))
    return { cannot: `model ${model.id} has no entry that empties the whole keypad`, instead: "plan without it, or from a reset by hand" };
  const wanted = untouched(before, stated);
  const impossible = whyImpossible(model, wanted);
  if (impossible) return impossible;
  const lost = options.lost ?? new Set();
  const from = before.installer === undefined && wanted.installer !== undefined ? { ...before, installer: wanted.installer } : before;
  const unsure = before.installer === undefined && start.from === "fitted";
  const reasons: string[] = [];
  let shutOut = false;
  const attempt = (way: Way | undefined) => {
    const found = way && transition(model, way.memory, way.target, lost, way.unsure);
    if (!way || !found) return undefined;
    if (!("reasons" in found)) return { way, transition: found };
    reasons.push(...found.reasons);
    shutOut ||= found.shutOut ?? false;
    return undefined;
  };

  const singly: Way = { model, start, before: from, memory: from, target: wanted, unsure };
  const first = start.from === "unknown" || options.clearAll ? undefined : attempt(singly);
  if (first) return first;
  const emptied = shutOut ? undefined : attempt(clearedAll(model, start, from, wanted, unsure));
  if (emptied) return emptied;
  const wiped = start.from === "reset" || start.from === "factory" ? undefined : attempt(resetByHand(model, wanted));
  const last = wiped ?? (start.from === "unknown" ? attempt(singly) : undefined);
  return last ?? { cannot: [...new Set(reasons)].slice(0, 3).join("; ") || nothingClears(start), instead: insteadOf(model, lost) };
}

/** Release times and settings that are not stated are as they were. */
function untouched(before: Memory, wanted: Memory): Memory {
  return {
    ...wanted,
    releases: new Map([...before.releases, ...wanted.releases]),
    settings: new Map([...before.settings, ...wanted.settings]),
  };
}

/** One way to begin: from the memory as it is, emptied by an entry, or wiped by hand. */
export interface Way {
  readonly model: Model;
  readonly start: Start;
  readonly before: Memory;
  /** What is stored when the entries of the transition begin. */
  readonly memory: Memory;
  readonly target: Memory;
  /** Nobody knows whether the installer code was changed: it is set again. */
  readonly unsure?: boolean;
  readonly clearAll?: Step;
  readonly reset?: Plan["reset"];
}

function clearedAll(model: Model, start: Start, before: Memory, wanted: Memory, unsure: boolean): Way | undefined {
  if (!model.operations.has("clear all")) return undefined;
  const clearAll: Step = { operation: { operation: "clear all" }, rank: Number.NEGATIVE_INFINITY, needs: new Set(), empties: [] };
  const draft = draftOf(before);
  apply(model, draft, clearAll.operation);
  const memory = freeze(draft);
  const wipes = model.operations.get("clear all")?.wipes ?? false;
  const target = wipes ? afterWipe(model, wanted) : wanted;
  const because = start.from === "unknown" ? { because: "unknown before" as const } : {};
  return { model, start, before, memory, target, unsure: unsure && !wipes, clearAll: { ...clearAll, ...because } };
}

function resetByHand(model: Model, wanted: Memory): Way | undefined {
  const reset = model.resets.find(({ what }) => what === "everything");
  if (!reset) return undefined;
  const { factory } = model;
  return { model, start: { from: "reset" }, before: factory, memory: factory, target: afterWipe(model, wanted), reset };
}

/** What nobody knew, and the text does not say, is as it leaves the factory. */
function afterWipe({ factory }: Model, wanted: Memory): Memory {
  const known = <K, V>(stated: ReadonlyMap<K, V | "unknown">, given: ReadonlyMap<K, V | "unknown">): ReadonlyMap<K, V | "unknown"> => {
    const all = new Map(given);
    for (const [key, value] of stated) if (value !== "unknown") all.set(key, value);
    return all;
  };
  return { ...wanted, releases: known(wanted.releases, factory.releases), settings: known(wanted.settings, factory.settings) };
}

function nothingClears(start: Start): string {
  return start.from === "unknown"
    ? "nobody knows what the keypad holds, and the model has nothing that empties it"
    : "no order of entries is safe at every step";
}

function insteadOf(model: Model, lost: ReadonlySet<TagId>): string {
  const words = ["leave in the text what cannot be changed at the keypad"];
  if (lost.size > 0) words.push("give a holder whose tag is lost another one");
  const wipes = model.resets.some(({ what }) => what === "everything");
  const missing = wipes ? "the missing entry" : "the missing entry or a reset that wipes everything";
  words.push(`or add ${missing} to model ${model.id} where its manual has it`);
  return words.join(", ");
}
