/** A keypad model, compiled from its text: what the memory is like and which keys do what. Nothing here knows a keypad. */
import type { Element, ModelDecl, OperationName } from "../../grammar/tree.ts";
import type { FileId } from "../finding.ts";
import type { Memory } from "./memory.ts";

/** One press: a digit, `*`, `#` or a named key such as `OK`. */
export type Key = string;

/** A relay or a set of relays: numbers ascending, joined by `+`: `1`, `1+2`. */
export type RelaySet = string;

export type SlotKind = "codes" | "tags" | "all-relay";

export type Addressing = "per relay" | "shared" | "unnumbered" | "one per relay";

export interface SlotBand {
  readonly from: number;
  readonly to: number;
  /** Undefined: codes and tags alike. */
  readonly kept?: SlotKind;
}

export interface Slots {
  readonly addressing: Addressing;
  /** Empty for `unnumbered` and `one per relay`. */
  readonly bands: readonly SlotBand[];
  /** Digits of a slot number as typed; undefined where it is typed as it is (`1..500`). */
  readonly width?: number;
  /** Places in all, ranges kept for all-relay codes left out: of one relay for `per relay`, of the keypad otherwise. */
  readonly capacity: number;
  readonly holds: "one" | "code or tag" | "code with tag";
}

export interface SettingDef {
  readonly label: string;
  readonly min: number;
  readonly max: number;
  readonly factory?: number;
  readonly template: readonly Element[];
  readonly shows?: string;
}

export interface OperationTemplate {
  readonly operation: OperationName;
  readonly template: readonly Element[];
  readonly shows?: string;
  /** `wipes everything` behind `clear all`. */
  readonly wipes: boolean;
}

export interface Model {
  readonly id: string;
  readonly label: string;
  readonly file: FileId;
  readonly decl: ModelDecl;
  readonly keys: ReadonlySet<Key>;
  /** What is typed for each relay and set, in the order written: presses. */
  readonly relays: ReadonlyMap<RelaySet, readonly Key[]>;
  /** Numbers of the single relays, ascending. */
  readonly relayNumbers: readonly number[];
  readonly slots: Slots;
  /** Ascending. */
  readonly codeLengths: readonly number[];
  /** The installer code's own lengths, or those of `codeLengths`. Ascending. */
  readonly installerLengths: readonly number[];
  /** The text gives the installer code lengths of its own. */
  readonly installerOwn: boolean;
  /** `one`: the model has one length and says no rule. */
  readonly length: "follows installer code" | "set by entry" | "free" | "one";
  readonly rewrite: "replaces" | "refused";
  readonly twins: "refused" | "first fires" | "all fire";
  readonly relength: "clears" | "keeps";
  readonly release?: { readonly min: number; readonly max: number; readonly toggle?: string };
  readonly settleSeconds: number;
  readonly lapseSeconds?: number;
  readonly lockout?: { readonly tries: number; readonly seconds: number };
  readonly refusedShows?: string;
  readonly cancel: readonly Element[];
  readonly resets: readonly { readonly what: "everything" | "installer code"; readonly text: string }[];
  readonly settings: ReadonlyMap<string, SettingDef>;
  readonly tagBits: number;
  readonly session: "many entries" | "one entry";
  readonly listens: "to the last keys" | "from the first key";
  readonly acts: "after a pause" | "at once";
  /** All operations but the settings' (those are in `settings`). */
  readonly operations: ReadonlyMap<OperationName, OperationTemplate>;
  readonly factory: Memory;
  /** Electrical facts for doors; undefined where unsaid. Amperes, volts. */
  readonly drawsAmps?: number;
  readonly contact?: { readonly amps: number; readonly volts?: number };
}
