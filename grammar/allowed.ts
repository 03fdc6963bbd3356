/** One thing that may stand at a cursor, and what has been said before it. */
import type { IToken } from "chevrotain";
import * as t from "./tokens.ts";

/** One thing that the grammar allows. A keyword may be several words (`no codes`). */
export type Allowed =
  | { readonly kind: "keyword"; readonly word: string }
  | { readonly kind: "sign"; readonly sign: string }
  /** A name that is made up here. */
  | { readonly kind: "new-name"; readonly of: "holder" | "keypad" | "model" | "supply" | "credential" }
  | { readonly kind: "holder" }
  | { readonly kind: "credential"; readonly holder: string }
  | { readonly kind: "keypad" }
  | { readonly kind: "model" }
  | { readonly kind: "slot" }
  | { readonly kind: "relay" }
  /** The digits of a code. */
  | { readonly kind: "code" }
  | { readonly kind: "tag" }
  | { readonly kind: "date" }
  | { readonly kind: "time" }
  | {
      readonly kind: "number";
      readonly of: "width" | "length" | "value" | "all-relay" | "relay" | "slots" | "tries" | "bits" | "digits" | "odds";
    }
  | { readonly kind: "quantity"; readonly units: readonly string[] }
  | { readonly kind: "unit" }
  /** A text in quotes. */
  | { readonly kind: "text"; readonly of: "path" | "site" | "label" | "door" | "setting" | "mark" | "note" | "shows" | "reset" }
  | { readonly kind: "field" }
  | { readonly kind: "key" }
  | { readonly kind: "hand" };

export const keyword = (word: string): Allowed => ({ kind: "keyword", word });
export const keywords = (words: readonly string[]): Allowed[] => words.map(keyword);
export const sign = (said: string): Allowed => ({ kind: "sign", sign: said });
export const text = (of: Extract<Allowed, { kind: "text" }>["of"]): Allowed => ({ kind: "text", of });
export const number = (of: Extract<Allowed, { kind: "number" }>["of"]): Allowed => ({ kind: "number", of });

/** What has been said of a fact: the words, without the one that begins it. */
export class Said {
  readonly words: readonly string[];
  private readonly tokens: readonly IToken[];

  constructor(tokens: readonly IToken[]) {
    this.tokens = tokens;
    this.words = tokens.map(token => token.image);
  }

  get first(): string {
    return this.words[0] ?? "";
  }

  get last(): string {
    return this.words[this.words.length - 1] ?? "";
  }

  get count(): number {
    return this.tokens.length;
  }

  has(type: IToken["tokenType"]): boolean {
    return this.tokens.some(token => token.tokenType === type);
  }

  includes(word: string): boolean {
    return this.words.includes(word, 1);
  }

  /** The first word is one of the language's own. */
  get isKeyword(): boolean {
    return t.typesOf(this.first) !== undefined;
  }

  /** The words behind the last number, or all but the first. */
  afterLastNumber(): readonly string[] {
    let from = this.count;
    while (from > 1 && !/^\d/.test(this.words[from - 1] ?? "")) from--;
    return this.words.slice(from);
  }

  endsWith(type: IToken["tokenType"]): boolean {
    return this.tokens[this.tokens.length - 1]?.tokenType === type;
  }
}

/** The rest of each phrase that begins with the words at the end of what is said, or the whole phrase where none has begun. */
export function phrases(all: readonly string[], said: readonly string[]): Allowed[] {
  const begun = said.join(" ");
  return all
    .filter(phrase => begun === "" || (phrase.startsWith(`${begun} `) && phrase.length > begun.length))
    .map(phrase => keyword(begun === "" ? phrase : phrase.slice(begun.length + 1)));
}

export function quantities(said: Said, units: readonly string[]): Allowed[] {
  return said.endsWith(t.Digits) || said.endsWith(t.Decimal) ? [{ kind: "unit" }] : [{ kind: "quantity", units }];
}
