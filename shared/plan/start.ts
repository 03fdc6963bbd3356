/** What a keypad's plan starts from, and the plan from there. */
import { emptyMemory } from "../keypad/fitted-memory.ts";
import type { Memory, Slot, TagId } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { isNumbered, numbersAllRelay, slotKey } from "../keypad/slot-key.ts";
import { shutInstead, shutWords } from "../sealed/shut.ts";
import type { Fitted, Keypad, Site } from "../site/site.ts";
import type { CannotPlan, Plan, Start } from "./plan.ts";
import { planKeypad } from "./plan-keypad.ts";
import { wantedMemory } from "./wanted.ts";
import type { PlanOptions } from "./way.ts";

/**
 * What a plan may start from. `fitted`: what the keypad's record says, or factory-new where it has none. A record of its own, such
 * as an earlier one. `held`: a memory, such as what an earlier text wanted; `text` is then what that text is called.
 */
export type From = "fitted" | "factory" | "reset" | Fitted | { readonly held: Memory; readonly text?: string };

/** What an earlier text wanted of a keypad, as the memory that it held when all of that had been typed. */
export function heldByText(model: Model, earlier: Keypad): Memory {
  return wantedMemory(earlier, earlier.fitted?.memory ?? model.factory);
}

/** Plans one keypad of a site. */
export function planFor(site: Site, keypad: Keypad, from: From = "fitted", options: Omit<PlanOptions, "lost"> = {}): Plan | CannotPlan {
  const { model } = keypad;
  if (site.shut.length > 0) return { cannot: shutWords(site.shut), instead: shutInstead(site.shut) };
  if (!model) return { cannot: "the keypad's model is not known", instead: "name a model that the site has, or mend the model's text" };
  const found = startOf(model, keypad, from);
  if ("cannot" in found) return found;
  const { start, before, reset } = found;
  const plan = planKeypad(model, before, wantedMemory(keypad, before), start, { ...options, lost: lostTags(site) });
  return "cannot" in plan || !reset || plan.reset ? plan : { ...plan, reset };
}

/** The memory that a plan starts from. */
export function startOf(
  model: Model,
  keypad: Keypad,
  from: From = "fitted",
): { readonly start: Start; readonly before: Memory; readonly reset?: Plan["reset"] } | CannotPlan {
  if (from === "reset") {
    const reset = model.resets.find(({ what }) => what === "everything");
    if (reset) return { start: { from: "reset" }, before: model.factory, reset };
    return { cannot: `model ${model.id} has no reset that wipes everything`, instead: "plan from what is fitted" };
  }
  if (typeof from === "object" && "held" in from) {
    const text = from.text === undefined ? {} : { text: from.text };
    return { start: { from: "fitted", knows: "all", ...text }, before: from.held };
  }
  const fitted = from === "fitted" ? keypad.fitted : from === "factory" ? undefined : from;
  if (!fitted) return { start: { from: "factory" }, before: model.factory };
  if (fitted.modelId !== undefined && fitted.modelId !== model.id) {
    return {
      cannot: `the record of this keypad is of a ${fitted.modelId}, the text says ${model.id}`,
      instead: "name the model that hangs there; where the keypad was swapped, record that it was replaced",
    };
  }
  if (fitted.knows === "nothing") return { start: { from: "unknown" }, before: partlyKnown(model, emptyMemory()) };
  const memory = fitted.memory ?? emptyMemory();
  const date = fitted.date === undefined ? {} : { date: fitted.date };
  const start: Start = { from: "fitted", ...date, knows: fitted.knows };
  return { start, before: fitted.knows === "part" ? partlyKnown(model, memory) : memory };
}

/** Tags that their holders have lost. */
export function lostTags(site: Site): ReadonlySet<TagId> {
  const lost = new Set<TagId>();
  for (const { credentials } of site.holders.values())
    for (const { lost: isLost, tag } of credentials) if (isLost && tag !== undefined) lost.add(tag);
  return lost;
}

/** What is listed is known; every other place that the keypad has is unknown. */
export function partlyKnown(model: Model, listed: Memory): Memory {
  const slots = new Map(listed.slots);
  const unknown = (slot: Slot) => {
    if (!slots.has(slot.key)) slots.set(slot.key, slot);
  };
  const { addressing, bands } = model.slots;
  const numbers = isNumbered(model) ? bands.filter(band => band.kept !== "all-relay") : [];
  const relays = addressing === "shared" ? [undefined] : [...model.relays.keys()];
  for (const fires of relays) {
    const said = fires === undefined ? {} : { fires };
    for (const { from, to } of numbers)
      for (let number = from; number <= to; number++) unknown({ key: slotKey(model, fires, number), ...said, number, unknown: true });
    if (addressing === "one per relay") unknown({ key: slotKey(model, fires, undefined), ...said, unknown: true });
  }
  // Without numbers nobody can name the places that are not listed: one stands for all of them.
  if (addressing === "unnumbered") unknown({ key: "unknown", unknown: true });

  // The codes that are listed tell the length in force, where the record does not.
  const lengths = new Set([...listed.slots.values()].flatMap(({ code }) => (code === undefined ? [] : [code.length])));
  const told = model.length === "set by entry" && listed.codeLength === undefined && lengths.size === 1 ? [...lengths][0] : undefined;
  const allRelay = new Map(listed.allRelay);
  if (numbersAllRelay(model)) {
    for (const { from, to, kept } of bands)
      for (let number = from; kept === "all-relay" && number <= to; number++) {
        if (!allRelay.has(`${number}`)) allRelay.set(`${number}`, { number, unknown: true });
      }
  } else if (model.operations.has("set all-relay") && !allRelay.has("")) allRelay.set("", { unknown: true });
  return {
    ...listed,
    ...(told === undefined ? {} : { codeLength: told }),
    slots,
    allRelay,
    releases: new Map([...unknownReleases(model), ...listed.releases]),
    settings: new Map([...unknownSettings(model), ...listed.settings]),
  };
}

function unknownReleases(model: Model): Memory["releases"] {
  return new Map(model.operations.has("set release") ? [...model.relays.keys()].map(relay => [relay, "unknown"] as const) : []);
}

function unknownSettings(model: Model): Memory["settings"] {
  return new Map([...model.settings.keys()].map(label => [label, "unknown"] as const));
}
