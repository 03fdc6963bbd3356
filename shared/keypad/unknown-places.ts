/** Places of which nobody can tell what they hold, and the doors that they may release. */
import type { Memory } from "./memory.ts";
import { relaysOf } from "./relay-set.ts";

/** Whether a place of unknown content may release a single relay: one that fires it, or one of which it is not said what it fires. */
export function unknownPlaces(memory: Memory): (relay: string) => boolean {
  const places = [...memory.slots.values()].filter(slot => slot.unknown);
  const anywhere = places.some(({ fires }) => fires === undefined);
  const relays = new Set(places.flatMap(({ fires }) => (fires === undefined ? [] : relaysOf(fires))));
  return relay => anywhere || relays.has(relay);
}
