/** Whether a keypad could hold what is wanted at all: it is written, place by place, into an empty one. */
import { apply } from "../keypad/apply.ts";
import { draftOf } from "../keypad/draft.ts";
import { emptyMemory } from "../keypad/fitted-memory.ts";
import type { Memory, RefusalKind } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { writing } from "./operation-of.ts";
import { placesOf } from "./place.ts";
import type { CannotPlan } from "./plan.ts";

const words: { readonly [K in RefusalKind]?: string } = {
  "unknown-keys": "the keypad does not take it: a code of another length, or a relay that it does not have",
  "slot-range": "its number is outside the model's slots",
  "slot-kind": "its number is kept for something else",
  twin: "the same code or tag is wanted in two places, which the keypad refuses",
  "memory-full": "more is wanted than the keypad holds",
};

/** Undefined where it could. What the model has no entry for is not looked at: it may be there already. */
export function whyImpossible(model: Model, wanted: Memory): CannotPlan | undefined {
  if (wanted.installer === undefined) return { cannot: "nobody knows the installer code", instead: "state it in the keypad's block" };
  if (!model.operations.has("enter")) return { cannot: `model ${model.id} does not say how programming mode is entered` };
  const { installer, codeLength } = wanted;
  const draft = draftOf({ ...emptyMemory(), installer, ...(codeLength === undefined ? {} : { codeLength }) });
  for (const place of placesOf(emptyMemory(), wanted))
    for (const half of ["code", "tag"] as const) {
      if (place.to[half] === undefined) continue;
      const operation = writing(model, place, half);
      const refusal = operation && apply(model, draft, operation);
      if (refusal) return { cannot: `${where(place.number, place.to.fires)}: ${words[refusal.kind] ?? "the keypad refuses it"}` };
    }
  return undefined;
}

function where(number: number | undefined, relay: string | undefined): string {
  const slot = number === undefined ? "an entry" : `slot ${number}`;
  return relay === undefined ? slot : `${slot} of relay ${relay}`;
}
