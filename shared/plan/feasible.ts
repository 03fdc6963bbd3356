/** Whether a keypad has a plan at all, found without writing it out: what a check asks at every keystroke. */
import { cannotEncode } from "../keypad/encode.ts";
import type { Memory, Operation } from "../keypad/memory.ts";
import { sameMemory } from "../keypad/memory-equal.ts";
import type { Model } from "../keypad/model.ts";
import type { Keypad, Site } from "../site/site.ts";
import { factSteps } from "./fact-steps.ts";
import { writing } from "./operation-of.ts";
import { placesOf } from "./place.ts";
import type { CannotPlan } from "./plan.ts";
import { lostTags, startOf } from "./start.ts";
import { wantedMemory } from "./wanted.ts";
import { whyImpossible } from "./wanted-possible.ts";
import { wayTo } from "./way.ts";

/**
 * Why no plan takes a keypad from its record (or from factory-new) to its text. What the text wants wrongly, and what the
 * record says of another model, are other findings' matter and are not answered here.
 */
export function whyNoPlan(site: Site, keypad: Keypad): CannotPlan | undefined {
  const { model } = keypad;
  const start = model && startOf(model, keypad);
  if (!model || !start || "cannot" in start) return undefined;
  const wanted = wantedMemory(keypad, start.before);
  const { before } = start;
  if (start.start.from !== "unknown" && sameMemory(before, wanted, model)) return undefined;
  const facts = factSteps(model, before, wanted);
  if (facts.wrong.length > 0) return undefined;
  if (start.start.from !== "unknown" && before.slots.size === 0 && before.allRelay.size === 0)
    return whyNotIntoEmpty(model, before, wanted, facts.stuck);
  if (whyImpossible(model, wanted)) return undefined;
  const found = wayTo(model, before, wanted, start.start, { lost: lostTags(site) });
  return "cannot" in found ? found : undefined;
}

/** Into an empty keypad everything is written that can be typed at all: one of each kind of entry is looked at. */
function whyNotIntoEmpty(model: Model, before: Memory, wanted: Memory, stuck: readonly string[]): CannotPlan | undefined {
  const reasons = new Set(stuck);
  const seen = new Set<string>();
  for (const place of placesOf(before, wanted))
    for (const half of ["code", "tag"] as const) {
      const content = place.to[half];
      if (content === undefined) continue;
      const kind = `${place.kind} ${half} ${place.to.fires ?? ""} ${/^\d+$/.test(content)}`;
      if (seen.has(kind)) continue;
      seen.add(kind);
      const operation = writing(model, place, half);
      const reason = operation ? notTyped(model, operation, wanted) : `the model has no entry that writes ${written(place.kind, half)}`;
      if (reason !== undefined) reasons.add(reason);
    }
  if (reasons.size === 0) return undefined;
  return {
    cannot: [...reasons].slice(0, 3).join("; "),
    instead: `add the missing entry to model ${model.id} where its manual has it, or leave out what needs it`,
  };
}

function notTyped(model: Model, operation: Operation, { installer }: Memory): string | undefined {
  const reason = cannotEncode(model, operation, installer === undefined ? {} : { installer });
  return reason === undefined ? undefined : `${operation.operation}: ${reason}`;
}

function written(kind: "slot" | "all-relay", half: "code" | "tag"): string {
  if (kind === "all-relay") return "an all-relay code";
  return half === "code" ? "a code" : "a tag";
}
