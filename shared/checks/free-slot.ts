/** Slots that are still free, and how a slot's number is written. */
import type { SlotKind } from "../keypad/model.ts";
import { isNumbered, slotKey } from "../keypad/slot-key.ts";
import type { Placement } from "../site/site.ts";

/**
 * The next free slot for what an entry places, in a range that may hold it: after the highest one that the relay uses, or
 * else the lowest free one. A place that the fitted record calls taken but the text does not use is free to be used.
 *
 * @returns undefined where the memory is full or its places have no numbers.
 */
export function nextFreeSlot(placement: Placement): number | undefined {
  const { keypad, relay } = placement;
  const model = keypad.model;
  if (!model || !isNumbered(model)) return undefined;
  const shared = model.slots.addressing === "shared";
  const taken = new Set<string>();
  let highest = -1;
  for (const other of keypad.placements) {
    if (other.slot === undefined || other === placement) continue;
    taken.add(slotKey(model, other.relay.set, other.slot));
    if (shared || other.relay.set === relay.set) highest = Math.max(highest, other.slot);
  }
  const kinds = kindsOf(placement);
  const bands = model.slots.bands.filter(
    band => band.kept === undefined || (kinds.size > 0 && [...kinds].every(kind => kind === band.kept)),
  );
  const free = (from: number, to: number) => {
    for (let slot = from; slot <= to; slot++) if (!taken.has(slotKey(model, relay.set, slot))) return slot;
    return undefined;
  };
  for (const band of bands) {
    if (highest < band.from || highest >= band.to) continue;
    const after = free(highest + 1, band.to);
    if (after !== undefined) return after;
  }
  for (const band of bands) {
    const slot = free(band.from, band.to);
    if (slot !== undefined) return slot;
  }
  return undefined;
}

/** What an entry would put into its slot; empty where nothing it names is known. */
export function kindsOf(placement: Placement): ReadonlySet<SlotKind> {
  return new Set(placement.held.flatMap(({ credential }) => (credential ? [credential.kind === "code" ? "codes" : "tags"] : [])));
}
