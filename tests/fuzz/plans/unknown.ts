/** Records that do not know everything: some places of a keypad unknown, and what may open while such a keypad is programmed. */
import type { Memory, Slot } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { SecondDoor } from "../../support/second-door.ts";
import { heldIn } from "../../support/second-keypad.ts";

/** The record of a keypad of which some places are not known. */
export function forgotten(model: Model, truth: Memory, isForgotten: () => boolean): Memory {
  const hide = ({ key, fires, number, code, tag }: Slot): Slot => {
    // Without numbers a place is known by what it may hold.
    const content = model.slots.addressing === "unnumbered" ? { ...(code ? { code } : {}), ...(tag ? { tag } : {}) } : {};
    return { key, ...(fires === undefined ? {} : { fires }), ...(number === undefined ? {} : { number }), ...content, unknown: true };
  };
  return {
    ...truth,
    slots: new Map([...truth.slots].map(([key, slot]) => [key, isForgotten() ? hide(slot) : slot])),
    allRelay: new Map(
      [...truth.allRelay].map(([key, { number, code }]) => [
        key,
        { ...(number === undefined ? {} : { number }), ...(isForgotten() ? { unknown: true } : { code: code ?? "" }) },
      ]),
    ),
  };
}

/** What may open while a plan is typed: what opened before, whichever of the unknown places were empty, and what is wanted. */
export function mayOpen(model: Model, truth: Memory, record: Memory, wanted: Memory): Set<string> {
  const places = [
    ...[...record.slots.values()].filter(slot => slot.unknown).map(({ key }) => ({ slot: key })),
    ...[...record.allRelay].filter(([, stored]) => stored.unknown).map(([key]) => ({ allRelay: key })),
  ];
  const allowed = new Set(new SecondDoor(model, heldIn(wanted)).opens());
  for (let mask = 0; mask < 1 << places.length; mask++) {
    const slots = new Map(truth.slots);
    const allRelay = new Map(truth.allRelay);
    for (const [at, place] of places.entries()) {
      if (!(mask & (1 << at))) continue;
      if ("slot" in place) slots.delete(place.slot);
      else allRelay.delete(place.allRelay);
    }
    for (const pair of new SecondDoor(model, heldIn({ ...truth, slots, allRelay })).opens()) allowed.add(pair);
  }
  return allowed;
}
