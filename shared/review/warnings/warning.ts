/** A warning about a change: what no single text shows. */
import type { Holder, Keypad, Site } from "../../site/site.ts";
import type { Pair } from "../match.ts";

export interface Found {
  /** Names holders and places, never a code. */
  readonly message: string;
  /** Of the holder, in the new text. */
  readonly holder: string;
}

export interface Warned extends Found {
  readonly code: string;
}

export interface Warning {
  /** The file's name, and the heading of the explanation. */
  readonly code: string;
  readonly explain: {
    readonly what: string;
    readonly why: string;
    /** A text, what it becomes so that the warning is given, and what it may become without one. */
    readonly before: string;
    readonly triggers: string;
    readonly quiet: string;
  };
  find(before: Site, after: Site, holders: readonly Pair<Holder>[], keypads: readonly Pair<Keypad>[]): readonly Found[];
}
