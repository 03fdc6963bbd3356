/** A relay or a set of relays as text: numbers ascending, joined by `+`. */
import type { RelaySet } from "./model.ts";

/** `["2", "01"]` is `1+2`; one number twice counts once. */
export function relaySet(numbers: readonly (string | number)[]): RelaySet {
  return [...new Set(numbers.map(Number))].sort((a, b) => a - b).join("+");
}

/** The single relays of a set, as text: `1+2` is `["1", "2"]`. */
export function relaysOf(set: RelaySet): readonly RelaySet[] {
  return set.includes("+") ? set.split("+") : [set];
}

/** Lowest relay first; of two sets with the same lowest relay the one whose next is lower, the shorter before the longer. */
export function compareRelaySets(a: RelaySet, b: RelaySet): number {
  if (a === b) return 0;
  const [one, other] = [relaysOf(a).map(Number), relaysOf(b).map(Number)];
  for (let i = 0; i < one.length && i < other.length; i++) {
    const difference = (one[i] ?? 0) - (other[i] ?? 0);
    if (difference !== 0) return difference;
  }
  return one.length - other.length;
}
