/** Models and memories for the parts about plans and keys, drawn at random. */
import { apply } from "../../../shared/keypad/apply.ts";
import { draftOf, freeze } from "../../../shared/keypad/draft.ts";
import type { Memory } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { Draw, drawnModel, drawnOperation } from "../../support/random-model.ts";
import type { Random } from "../random.ts";

export function drawOf(random: Random): Draw {
  return new Draw(max => random.below(max + 1));
}

/** A model whose entries can be told apart. */
export function richModel(draw: Draw): { readonly model: Model; readonly text: string } {
  for (;;) {
    const drawn = drawnModel(draw);
    if (drawn) return drawn;
  }
}

/** What a keypad holds after some entries. */
export function richMemory(model: Model, draw: Draw, from: Memory, entries: number): Memory {
  const draft = draftOf(from);
  for (let i = 0; i < entries; i++) apply(model, draft, drawnOperation(model, freeze(draft), draw));
  return freeze(draft);
}
