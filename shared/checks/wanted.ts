/** What a keypad is to hold by the text, for the checks that look at it as a whole. */

import type { Door } from "../keypad/door.ts";
import { doorOf } from "../keypad/door.ts";
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { Memory } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { Stored } from "../keypad/open-strings.ts";
import { slotKey } from "../keypad/slot-key.ts";
import { wantedMemory } from "../plan/wanted.ts";
import type { AllRelayPlace, HeldUse, Keypad, Placement } from "../site/site.ts";

const known = new WeakMap<Keypad, Memory>();

/**
 * The memory that the text wants; what it does not say is as the record or else the factory has it. An installer code or a code
 * length that the model cannot have is reported where it stands and left out here, so that it makes nothing else wrong.
 */
export function wantedOf(keypad: Keypad, model: Model): Memory {
  const before = known.get(keypad);
  if (before) return before;
  const start = keypad.fitted?.memory ?? model.factory;
  const { installer, codeLength, ...rest } = wantedMemory(keypad, start);
  const settable = model.length === "set by entry" && codeLength !== undefined && model.codeLengths.includes(codeLength);
  const length = settable ? codeLength : start.codeLength;
  const wanted: Memory = {
    ...rest,
    ...(installer !== undefined && model.installerLengths.includes(installer.length) ? { installer } : {}),
    ...(length === undefined ? {} : { codeLength: length }),
  };
  known.set(keypad, wanted);
  return wanted;
}

/** Code lengths that the keypad takes as it is wanted. */
export function wantedLengths(keypad: Keypad, model: Model): readonly number[] {
  return codeLengthsInForce(model, wantedOf(keypad, model));
}

const doors = new WeakMap<Keypad, Door>();

/** The door of the keypad as it is wanted: what fires when a person keys or presents something. */
export function wantedDoor(keypad: Keypad, model: Model): Door {
  const before = doors.get(keypad);
  if (before) return before;
  const door = doorOf(model, wantedOf(keypad, model));
  doors.set(keypad, door);
  return door;
}

/** Where the text places something stored. */
export type PlacedAt = { readonly use: HeldUse } & ({ readonly placement: Placement } | { readonly allRelay: AllRelayPlace });

/** Finds the text's words for what is stored; undefined for `enter` and for what no entry names. */
export function placesByStored(keypad: Keypad, model: Model): (stored: Stored) => PlacedAt | undefined {
  const slots = new Map<string, PlacedAt>();
  const allRelay = new Map<number | undefined, PlacedAt>();
  const first = <K>(map: Map<K, PlacedAt>, key: K, place: PlacedAt) => map.has(key) || map.set(key, place);
  for (const place of keypad.allRelay) if (place.held) first(allRelay, place.number, { use: place.held, allRelay: place });
  for (const placement of keypad.placements) {
    for (const use of placement.held) {
      const { kind, digits, tag } = use.credential ?? {};
      if (kind === undefined) continue;
      const content = { ...(digits === undefined ? {} : { code: digits }), ...(tag === undefined ? {} : { tag }) };
      first(slots, `${kind} ${slotKey(model, placement.relay.set, placement.slot, content)}`, { use, placement });
    }
  }
  return stored => {
    if (stored.is === "enter") return undefined;
    if (stored.is === "all-relay") return allRelay.get(stored.number);
    return slots.get(`${stored.half === "tag" ? "tag" : "code"} ${stored.key}`);
  };
}
