/** A slot's number as it is typed at the keypad and written in a text: with zeros in front where the model has a width. */
import type { Model } from "./model.ts";

/** @param model undefined where it is not known; the number then has no zeros in front */
export function slotText(model: Pick<Model, "slots"> | undefined, slot: number): string {
  return String(slot).padStart(model?.slots.width ?? 1, "0");
}
