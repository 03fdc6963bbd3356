/** What a change will take at each keypad: entries, keys, minutes, what to bring; and what already waited before it. */
import type { Finding } from "../finding.ts";
import type { Memory } from "../keypad/memory.ts";
import { sameMemory } from "../keypad/memory-equal.ts";
import { holdsBack } from "../plan/held-back.ts";
import type { CannotPlan, Plan } from "../plan/plan.ts";
import { heldByText, planFor } from "../plan/start.ts";
import { minutesOf } from "../plan/time.ts";
import { wantedMemory } from "../plan/wanted.ts";
import type { Keypad, Site } from "../site/site.ts";
import type { Pair } from "./match.ts";

export interface Work {
  readonly keypad: Keypad;
  /** `record`: what is fitted by the new text's record. `text`: what the old text wanted, taken as typed. `factory`: a new keypad. */
  readonly from: "record" | "text" | "factory";
  /** The change touches what the keypad is to hold, or what is known of it. */
  readonly touched: boolean;
  /** To type now; undefined where there is no sheet, and `why` says so. */
  readonly entries?: number;
  readonly keys?: number;
  /** Rounded up; keys only, a practised hand. */
  readonly minutes?: number;
  /** Tags to present, by number or mark. */
  readonly tags: readonly string[];
  readonly why?: string;
  /** Entries that waited before the change already, where a record tells. */
  readonly waited?: number;
}

/** @param findings of the new text */
export function workOf(before: Site, after: Site, keypads: readonly Pair<Keypad>[], findings: readonly Finding[]): readonly Work[] {
  return keypads.flatMap(({ was, is }) => (is ? [workAt(before, after, was, is, findings)] : []));
}

function workAt(before: Site, after: Site, was: Keypad | undefined, keypad: Keypad, findings: readonly Finding[]): Work {
  const { model } = keypad;
  const held = model && was?.model?.id === model.id ? heldByText(model, was) : undefined;
  const from = keypad.fitted ? "record" : held ? "text" : "factory";
  const about = { keypad, from, touched: isTouched(was, keypad, held) } as const;
  const errors = findings.filter(finding => holdsBack(finding, keypad)).length;
  if (errors > 0)
    return { ...about, tags: [], why: errors === 1 ? "an error holds its sheet back" : `${errors} errors hold its sheet back` };
  const plan = planFor(after, keypad, from === "text" && held ? { held } : "fitted");
  if ("cannot" in plan) return { ...about, tags: [], why: plan.cannot };
  const waited = from === "record" && was?.fitted ? countOf(planFor(before, was)) : undefined;
  return {
    ...about,
    entries: plan.counts.entries,
    keys: plan.counts.keys,
    minutes: plan.counts.entries === 0 ? 0 : minutesOf(plan.seconds),
    tags: plan.tags,
    ...(waited === undefined ? {} : { waited }),
  };
}

function isTouched(was: Keypad | undefined, is: Keypad, held: Memory | undefined): boolean {
  if (!was || !held || !is.model) return true;
  if (!sameMemory(held, wantedMemory(is, held), is.model)) return true;
  const [then, now] = [was.fitted, is.fitted];
  if (then?.knows !== now?.knows) return true;
  return then?.memory !== undefined && now?.memory !== undefined && !sameMemory(then.memory, now.memory, is.model);
}

function countOf(plan: Plan | CannotPlan): number | undefined {
  return "cannot" in plan ? undefined : plan.counts.entries;
}
