/** What a check finds, and what a fix changes: offsets and words, no editor and no terminal. */
import type { Parsed } from "../grammar/tree.ts";
import type { Names } from "./sealed/names.ts";

/** A path or URI with forward slashes; compared as text, shown by the faces in their own way. */
export type FileId = string;

/** A read file. `version` is whatever the reader counts by; equal versions mean equal text. */
export interface SourceFile extends Parsed {
  readonly file: FileId;
  readonly text: string;
  /** Where it stands for a sealed file. Shut, `file` and `text` are those of its names file, and the tree holds names only. */
  readonly sealed?: Sealed;
}

/** What is known of a sealed file. */
export interface Sealed {
  /** The sealed file itself. */
  readonly file: FileId;
  /** Its text could be read, and is the source's. */
  readonly open: boolean;
  /** Why it is shut, in words: "no identity was given". */
  readonly why?: string;
  /** It is shut because it cannot be read at all, by anybody; so may a plain record be. */
  readonly unreadable?: true;
  /** What its names file says; undefined where there is none. */
  readonly names?: Names;
}

/** A stretch of one file; UTF-16 offsets, `end` exclusive. */
export interface Place {
  readonly file: FileId;
  readonly start: number;
  readonly end: number;
}

export type Severity = "error" | "warning" | "information" | "hint";

export interface Finding extends Place {
  readonly code: string;
  readonly severity: Severity;
  /** Names holders, slots, relays, rules and limits; never contains a code. */
  readonly message: string;
  readonly related: readonly (Place & { readonly message: string })[];
  /** `unnecessary` and `deprecated` are shown faded and struck out by editors. */
  readonly tags?: readonly ("unnecessary" | "deprecated")[];
  /** Keypads (by id) whose sheet this finding holds back when it is an error. Empty: every keypad of the site. */
  readonly keypads: readonly string[];
  /** What the check's `fixes` need; opaque to everyone else. Never leaves the process. */
  readonly found: unknown;
}

export interface Edit extends Place {
  readonly text: string;
}

export interface Fix {
  /** Imperative, without a code in it: "Move to slot 04". */
  readonly title: string;
  readonly edits: readonly Edit[];
  /** May be applied without looking: part of "fix all". */
  readonly safe?: boolean;
  /** The one to apply where only one can be. */
  readonly preferred?: boolean;
  /** A new code is drawn for this credential (`u1`, `u3.yard`): the face has the random source and makes the edit with `shared/codes/issue.ts`. */
  readonly draws?: string;
}
