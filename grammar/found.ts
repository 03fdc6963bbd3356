/** How a message names what was found, in words of the language, and never with digits that could be a code. */

import type { IToken, TokenType } from "chevrotain";
import { EOF } from "chevrotain";
import * as t from "./tokens.ts";

const longestWord = 30;

/** "`}`", "a number", "the end of the file". */
export function found(token: IToken): string {
  if (token.tokenType === EOF) return "the end of the file";
  return named(token) ?? `\`${token.image}\``;
}

/** The same for the token that something is missing behind. */
export function spoken(token: IToken): string {
  if (token.tokenType === EOF) return "the beginning of the file";
  return named(token)?.replace(/^an? /, "the ").replace(" in quotes", "") ?? `\`${token.image}\``;
}

const kinds = new Map<TokenType, string>([
  [t.Text, "a text in quotes"],
  [t.UnclosedText, "a text in quotes"],
  [t.CurlyText, "a text in quotes"],
  [t.Digits, "a number"],
  [t.Hexadecimal, "a number"],
  [t.FacilityNumber, "a number"],
  [t.Decimal, "a number"],
  [t.DateWord, "a date"],
  [t.Hand, "an action of the hand"],
  [t.UnclosedHand, "an action of the hand"],
]);

function named(token: IToken): string | undefined {
  const kind = kinds.get(token.tokenType);
  if (kind !== undefined) return kind;
  const image = token.image;
  if (/^-?\d/.test(image)) return "a number";
  if (/^\p{Nd}/u.test(image)) return "digits other than 0 to 9";
  if (/^[\w\u0080-\uffff]/.test(image)) return image.length > longestWord || /\p{Nd}{3}/u.test(image) ? "a name" : undefined;
  return /[\0-\x1f\x7f\ud800-\udfff]/.test(image) ? "a character that is none of the language" : undefined;
}

/** A word in small letters where keys stand: its key, as it is to be written. */
export function keyMeant(image: string): string | undefined {
  return /^[A-Za-z]{1,12}$/.test(image) ? `a key is written in capitals: \`${image.toUpperCase()}\`` : undefined;
}

/** The one word of the list that is a slip of the hand away (one letter more, less, other, or two changed places), if there is just one. */
export function nearest(image: string, words: readonly string[]): string | undefined {
  if (image.length < 3 || image.length > longestWord) return undefined;
  const near = words.filter(word => word !== image && isOneSlip(image, word));
  return near.length === 1 ? near[0] : undefined;
}

function isOneSlip(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let from = 0;
  while (from < a.length && a[from] === b[from]) from++;
  let back = 0;
  while (back < Math.min(a.length, b.length) - from && a[a.length - 1 - back] === b[b.length - 1 - back]) back++;
  const [left, right] = [a.slice(from, a.length - back), b.slice(from, b.length - back)];
  if (left.length <= 1 && right.length <= 1) return true;
  return left.length === 2 && right.length === 2 && left[0] === right[1] && left[1] === right[0];
}
