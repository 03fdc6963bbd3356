/** What a keypad holds, and what a person can do to it: memories and operations as plain values. */
import type { RelaySet } from "./model.ts";

/** Digits as text: leading zeros count. */
export type Digits = string;

/** A tag: the decimal of its data bits (no leading zeros), or its mark in quotes (`"red dot"`) when it has no number. */
export type TagId = string;

/**
 * Where a slot is: `1/4` (relay or set, slash, number) on `per relay`, `4` on `shared`, `1` (the relay) on `one per relay`;
 * on `unnumbered` the code's digits or `tag:` and the tag (the keypad finds its own place), with the set it fires: `1:48291`.
 * Numbers without leading zeros. Made by `slotKey` only.
 */
export type SlotKey = string;

export interface Slot {
  readonly key: SlotKey;
  /** The relay or set that it fires. On an unknown shared slot it may be unsaid. */
  readonly fires?: RelaySet;
  /** Undefined on memories without numbers. */
  readonly number?: number;
  readonly code?: Digits;
  readonly tag?: TagId;
  /** Code and tag are both needed. */
  readonly needsBoth?: boolean;
  /** Nobody can say what this place holds. */
  readonly unknown?: boolean;
}

export type ReleaseTime = number | "toggle";

export interface AllRelay {
  /** Undefined where the model does not number them. */
  readonly number?: number;
  readonly code?: Digits;
  readonly unknown?: boolean;
}

export interface Memory {
  /** Undefined: nobody knows it. */
  readonly installer?: Digits;
  /** Only where the model's length is `set by entry`. */
  readonly codeLength?: number;
  /** By number as text, `""` where the model does not number them. */
  readonly allRelay: ReadonlyMap<string, AllRelay>;
  /** By relay or set; what is not said is absent. Seconds or "toggle"; "unknown" after a doubtful entry. */
  readonly releases: ReadonlyMap<RelaySet, ReleaseTime | "unknown">;
  readonly settings: ReadonlyMap<string, number | "unknown">;
  /** In the order typed, which matters to unnumbered memories whose first twin fires. */
  readonly slots: ReadonlyMap<SlotKey, Slot>;
}

/** One thing that is typed in programming mode. `relay` is what `{relay}` stands for; absent where the template has none. */
export type Operation =
  | { readonly operation: "put code"; readonly relay?: RelaySet; readonly slot?: number; readonly code: Digits }
  | { readonly operation: "put tag"; readonly relay?: RelaySet; readonly slot?: number; readonly tag: TagId }
  | { readonly operation: "clear slot"; readonly relay?: RelaySet; readonly slot?: number }
  | { readonly operation: "clear code"; readonly relay?: RelaySet; readonly code: Digits }
  | { readonly operation: "clear tag"; readonly relay?: RelaySet; readonly tag: TagId }
  | { readonly operation: "set installer"; readonly code: Digits }
  | { readonly operation: "set all-relay"; readonly slot?: number; readonly code: Digits }
  | { readonly operation: "clear all-relay"; readonly slot?: number; readonly code?: Digits }
  | { readonly operation: "set release"; readonly relay: RelaySet; readonly release: ReleaseTime }
  | { readonly operation: "set length"; readonly digits: number }
  | { readonly operation: "set setting"; readonly label: string; readonly value: number }
  | { readonly operation: "clear all" };

export type RefusalKind =
  | "not-in-programming"
  | "wrong-installer-code"
  | "unknown-keys"
  | "slot-range"
  | "slot-kind"
  | "slot-taken"
  | "twin"
  | "values-differ"
  | "setting-range"
  | "memory-full";

export interface Refusal {
  readonly kind: RefusalKind;
  readonly slot?: number;
  readonly relay?: RelaySet;
}

/** What is done at the keypad: a press, or a hand action. `[present tag]` names the tag that is presented. */
export type Act = { readonly press: string } | { readonly hand: string; readonly tag?: TagId };

/** One template element as it is typed: `{ text: "48291", acts: five presses }`, `{ text: "[present tag 8061261]", acts: one hand action }`. */
export interface KeyGroup {
  readonly text: string;
  readonly acts: readonly Act[];
  /** What the group stands for, so that faces can hide codes and set the slot apart. */
  readonly is: "keys" | "installer" | "new installer" | "code" | "tag" | "relay" | "slot" | "seconds" | "digits" | "value" | "hand";
}

export type ReplayStep = {
  readonly operation: Operation | { readonly operation: "enter" | "leave" | "cancel" | "unknown keys" };
  readonly acts: readonly Act[];
} & ({ readonly taken: true } | { readonly taken: false; readonly refusal: Refusal });
