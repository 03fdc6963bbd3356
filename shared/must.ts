/** What must hold, asserted where it is computed, in production too. */

/** An invariant that did not hold: a fault of Mullion, never of the text it was given. */
export class BrokenInvariant extends Error {
  override readonly name = "BrokenInvariant";
}

/**
 * Asserts an invariant.
 *
 * @param what says what must hold, in words; never holds a code, since it ends in logs.
 * @throws BrokenInvariant when `condition` is false.
 */
export function must(condition: unknown, what: string): asserts condition {
  if (!condition) throw new BrokenInvariant(what);
}
