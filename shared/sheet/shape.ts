/** What a run sheet says, as values: every word and every group of keys. The formats only set it out. */
import type { Operation } from "../keypad/memory.ts";
import type { RelaySet } from "../keypad/model.ts";
import type { Start } from "../plan/plan.ts";
import type { Day } from "../site/site.ts";

export interface Sheet {
  /** Identifies the plan; a keyed digest that tells nothing of its codes. */
  readonly number: string;
  readonly site: string;
  /** Id and label of the keypad. */
  readonly keypad: string;
  readonly label: string;
  readonly model: string;
  readonly modelLabel: string;
  readonly from: "factory" | "reset" | "unknown" | "fitted" | "text" | Day;
  readonly start: Start;
  /** "what was fitted on 2026-11-20". */
  readonly startWords: string;
  readonly date: Day;
  readonly commit?: string;
  readonly codesHidden: boolean;
  readonly before: readonly BeforeItem[];
  readonly sessions: readonly SheetSession[];
  /** All of them, in an order that does not trip the lockout. */
  readonly tries: readonly Try[];
  /** What paper prints of them, put in such an order again. */
  readonly paperTries: readonly Try[];
  /** How many tries paper leaves out; repeats of a good one are not counted. */
  readonly triesLeftOut: number;
  readonly pace?: string;
  readonly blanks: readonly BlankPattern[];
  /** "Foot gate 4": what stands for which door, for the blank rows. */
  readonly relayKeys: readonly string[];
  readonly counts: { readonly entries: number; readonly keys: number };
  /** The plan's own estimate. */
  readonly seconds: number;
  /** Plan and printed tries, rounded up. */
  readonly minutes: number;
  readonly proof: { readonly reachesTarget: true; readonly safeAtEveryEntry: true };
}

export type BeforeKind = "reset" | "power" | "installer" | "tag" | "key" | "tell" | "shut-out" | "lockout" | "relength" | "caution";

/** One thing to see to before the first entry. */
export interface BeforeItem {
  readonly kind: BeforeKind;
  readonly text: string;
  /** What is keyed, where something is. */
  readonly keys?: readonly SheetGroup[];
}

/** One template element as it stands on the sheet. */
export interface SheetGroup {
  readonly text: string;
  readonly is: "keys" | "code" | "installer" | "tag" | "relay" | "slot" | "seconds" | "digits" | "value" | "hand";
}

export interface SheetSession {
  /** From 1. */
  readonly number: number;
  readonly enter: readonly SheetGroup[];
  readonly enterShows?: string;
  /** Said before the enter keys: which installer code, what to try where it does not enter. */
  readonly enterNote?: string;
  readonly entries: readonly SheetEntry[];
  /** Empty: left by waiting. */
  readonly leave: readonly SheetGroup[];
  readonly leaveShows?: string;
  readonly leaveNote?: string;
}

export interface SheetEntry {
  readonly n: number;
  readonly operation: Operation["operation"];
  readonly keys: readonly SheetGroup[];
  /** "Unit 2's code into slot 02 of Foot gate". */
  readonly text: string;
  readonly relay?: RelaySet;
  readonly relayLabel?: string;
  /** As typed. */
  readonly slot?: string;
  /** Id of the holder, path of the credential; absent where the text does not know them. */
  readonly holder?: string;
  readonly credential?: string;
  readonly shows?: string;
  readonly refusal: string;
  readonly repeatable: boolean;
  readonly skippable: boolean;
  readonly needs: readonly number[];
  readonly neededBy: readonly number[];
  /** Why an entry is there that the text does not name. */
  readonly because?: string;
  /** Said where a pause inside the entry is longer than the keypad waits. */
  readonly lapse?: string;
}

export interface Try {
  /** "Unit 2's code". */
  readonly who: string;
  readonly keys: readonly SheetGroup[];
  /** Single relays, ascending. */
  readonly opens: readonly string[];
  /** "Foot gate opens", "nothing". */
  readonly expect: string;
  readonly kind: "new" | "withdrawn" | "again";
  /** Keys only, a practised hand. */
  readonly seconds: number;
  /** Seconds to wait before this try, so that the keypad does not lock out. */
  readonly waitSeconds?: number;
}

/** The key pattern of one operation, with gaps to fill by hand. */
export interface BlankPattern {
  readonly operation: string;
  readonly text: string;
  readonly parts: readonly ({ readonly keys: string } | { readonly gap: string; readonly width: number })[];
  readonly shows?: string;
}
