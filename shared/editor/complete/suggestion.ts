/** One thing that could be written at the cursor. */

export type SuggestionKind =
  | "slot"
  | "holder"
  | "credential"
  | "model"
  | "keypad"
  | "door"
  | "setting"
  | "relay"
  | "field"
  | "keyword"
  | "snippet"
  | "file";

export interface Suggestion {
  readonly kind: SuggestionKind;
  /** What is shown, and what typing is compared with. Never a code. */
  readonly label: string;
  readonly detail?: string;
  /** What is written in place of the word at the cursor; `label` where unsaid. */
  readonly text?: string;
  /** With places to fill in, as editors write them: `${1:name}`, `$0` for the end. */
  readonly snippet?: string;
  /** Lower comes first; suggestions of one rank stay in the order given. */
  readonly rank: number;
  /** What `describe` needs to say more of it. */
  readonly about?: About;
}

export type About =
  | { readonly what: "holder" | "model" | "keypad" | "word" | "field"; readonly name: string }
  | { readonly what: "credential"; readonly holder: string; readonly name: string };

/** A user's words inside a snippet. */
export function inSnippet(text: string): string {
  return text.replace(/[\\$}]/g, sign => `\\${sign}`);
}

/** A place to fill in, by its order, with what stands there until it is. */
export function place(order: number, otherwise: string): string {
  return `$\{${order}:${inSnippet(otherwise)}}`;
}

/** A place with a choice of words. */
export function choice(order: number, words: readonly string[]): string {
  return `$\{${order}|${words.map(word => word.replace(/[\\,|]/g, sign => `\\${sign}`)).join(",")}|}`;
}
