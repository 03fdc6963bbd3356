/** The places of a keypad, slots and all-relay codes alike, with what each holds and what it is to hold. */
import type { AllRelay, Digits, Memory, Slot, TagId } from "../keypad/memory.ts";
import type { RelaySet } from "../keypad/model.ts";

export interface Content {
  readonly code?: Digits;
  readonly tag?: TagId;
  /** The relay or set that is fired; undefined for all-relay codes and where nobody knows it. */
  readonly fires?: RelaySet;
}

export interface Place {
  /** The slot's key, or `all-relay` and the key of the all-relay code. */
  readonly id: string;
  readonly kind: "slot" | "all-relay";
  readonly number?: number;
  readonly from: Content;
  readonly to: Content;
  /** The code that it holds until a new code length takes it; by it the place can still be cleared before. */
  readonly passing?: Digits;
  /** Its code sleeps, and a new code length would wake it though nobody wants that. */
  readonly wakes?: true;
  /** Nobody can say what it holds; `from.code` and `from.tag` are then what it may hold, where that is known. */
  readonly unknown: boolean;
  /** Place in the order of the text; what the text does not name comes before all of it, in the order of the memory. */
  readonly rank: number;
}

export type Half = "code" | "tag";

const empty: Content = {};

/**
 * Every place that holds or is to hold something.
 *
 * @param before what was stored before a new code length took codes, where it does.
 * @param guarding codes by which no place is cleared before that.
 */
export function placesOf(from: Memory, to: Memory, before: Memory = from, guarding: ReadonlySet<Digits> = new Set()): readonly Place[] {
  const places: Place[] = [];
  const passing = (key: string) => {
    const [was, is] = [before.slots.get(key)?.code, from.slots.get(key)];
    return was !== undefined && is?.tag !== undefined && is.code === undefined && !guarding.has(was) ? was : undefined;
  };
  let gone = -(from.slots.size + from.allRelay.size);
  let rank = 1;
  for (const [key, was] of from.allRelay) if (!to.allRelay.has(key)) places.push(allRelayPlace(key, was, undefined, gone++));
  for (const [key, slot] of from.slots) if (!to.slots.has(key)) places.push(slotPlace(key, slot, undefined, gone++, passing(key)));
  for (const [key, wanted] of to.allRelay) places.push(allRelayPlace(key, from.allRelay.get(key), wanted, rank++));
  for (const [key, wanted] of to.slots) places.push(slotPlace(key, from.slots.get(key), wanted, rank++, passing(key)));
  return places;
}

/** What is to be typed for it: nothing where it holds what it is to hold. */
export function isChanged({ from, to, unknown }: Place): boolean {
  return unknown || from.code !== to.code || from.tag !== to.tag || (holdsAny(to) && from.fires !== to.fires);
}

export function holdsAny(content: Content): boolean {
  return content.code !== undefined || content.tag !== undefined;
}

function slotPlace(key: string, from: Slot | undefined, to: Slot | undefined, rank: number, passing: Digits | undefined): Place {
  const number = to?.number ?? from?.number;
  return {
    id: key,
    kind: "slot",
    ...(passing === undefined ? {} : { passing }),
    ...(number === undefined ? {} : { number }),
    from: from ?? empty,
    to: to ?? empty,
    unknown: from?.unknown === true,
    rank,
  };
}

function allRelayPlace(key: string, from: AllRelay | undefined, to: AllRelay | undefined, rank: number): Place {
  const number = to?.number ?? from?.number;
  return {
    id: `all-relay ${key}`,
    kind: "all-relay",
    ...(number === undefined ? {} : { number }),
    from: from ?? empty,
    to: to ?? empty,
    unknown: from?.unknown === true,
    rank,
  };
}
