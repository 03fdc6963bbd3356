/** A plan: the operations that take a keypad from what it holds to what the text wants, proved before it leaves the planner. */
import type { KeyGroup, Memory, Operation, TagId } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { Day } from "../site/site.ts";

/** What a plan starts from. */
export type Start =
  | { readonly from: "factory" }
  | { readonly from: "reset" }
  | { readonly from: "unknown" }
  /** `text`: no record, but what an earlier text of this name wanted, taken as typed. */
  | { readonly from: "fitted"; readonly date?: Day; readonly knows: "all" | "part"; readonly text?: string };

export interface PlanEntry {
  /** From 1, running on over sessions: what the sheet prints. */
  readonly n: number;
  readonly operation: Operation;
  readonly groups: readonly KeyGroup[];
  /** What tells the person that the entry was taken; undefined where the model does not say. */
  readonly shows?: string;
  /** Typing it again changes nothing and is not refused. */
  readonly repeatable: boolean;
  /** No other entry depends on it, no later session is entered with it, and leaving it out leaves the keypad safe. */
  readonly skippable: boolean;
  /** Numbers of the entries that must have been taken before this one. */
  readonly needs: readonly number[];
  /** Why an entry is there that the text does not name, in the trade's words. */
  readonly because?:
    | "frees a twin"
    | "frees a taken slot"
    | "breaks a cycle"
    | "would wake"
    | "unknown before"
    | "no longer wanted"
    | "length changed"
    | "installer blocked";
}

export interface PlanSession {
  readonly enter: readonly KeyGroup[];
  readonly entries: readonly PlanEntry[];
  /** Empty where the model has no `leave`: it is left by waiting for `lapse`. */
  readonly leave: readonly KeyGroup[];
  /** A new installer code is entered again with the new one: this session changes it. */
  readonly changesInstaller: boolean;
}

export interface Plan {
  readonly model: Model;
  readonly start: Start;
  /** What the hand does first: the reset procedure's text. */
  readonly reset?: { readonly what: "everything" | "installer code"; readonly text: string };
  readonly sessions: readonly PlanSession[];
  readonly before: Memory;
  readonly target: Memory;
  /** Tags that must be in hand, each once, in the order presented. */
  readonly tags: readonly TagId[];
  readonly counts: { readonly entries: number; readonly keys: number };
  /** Keystroke-Level Model estimate, seconds; settle and waits included. */
  readonly seconds: number;
  readonly proof: { readonly reachesTarget: true; readonly safeAtEveryEntry: true };
}

/** Why no plan exists; `instead` says what would do. */
export interface CannotPlan {
  readonly cannot: string;
  readonly instead?: string;
}
