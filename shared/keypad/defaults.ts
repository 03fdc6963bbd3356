/**
 * What is taken where a model's text is silent: said here once. Where two readings are possible, it is the one with which a
 * plan also works on a keypad that behaves the other way.
 *
 * - `rewrite refused`: a taken place is cleared before it is written, which a keypad that replaces allows as well.
 * - `twins refused`: a code is taken out of its old place before it goes into a new one, which is never wrong.
 * - `relength clears`: after a new code length everything is typed again.
 * - no `relays` line: one relay, typed as its number where an operation asks for it.
 * - no `settle`: ready at once. No `lapse`: programming mode is never left by itself. No `lockout`: none is known.
 */
import type { Model } from "./model.ts";

export const silent = {
  keys: ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "*", "#"],
  relays: new Map([["1", ["1"]]]),
  rewrite: "refused",
  twins: "refused",
  relength: "clears",
  settleSeconds: 0,
  tagBits: 24,
  session: "many entries",
  listens: "from the first key",
  acts: "at once",
  holds: "one",
} as const satisfies Partial<{
  readonly [Field in keyof Model]: Model[Field] extends ReadonlySet<string> ? readonly string[] : Model[Field];
}> & { readonly holds: Model["slots"]["holds"] };

/** The longest code that a model may have: what no keypad exceeds, and what keeps its automaton small. Our own choice. */
export const longestCode = 32;

/** The most relays and sets that a model may have. Our own choice. */
export const mostRelays = 64;
