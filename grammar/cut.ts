/**
 * Cuts a text where one token ends and the next begins: its first character tells what a token can be, a pattern how far it goes.
 *
 * Chevrotain's own lexer cuts at the same places, which a test compares; but it works out its tables whenever the program starts, and
 * that takes longer than to read and check a small site.
 */
import type { IToken, TokenType } from "chevrotain";
import { blank } from "./lines.ts";
import * as t from "./tokens.ts";

export interface Cut {
  readonly tokens: IToken[];
  readonly comments: readonly IToken[];
}

/** Where something that begins at a place ends; the place itself if it does not begin there. */
type Extent = (text: string, at: number) => number;

/** What can stand in a text: what is skipped, the comments, and the types of tokens. */
export interface Way {
  readonly what: "space" | "comment" | TokenType;
  /** Its first characters below U+0080; undefined for what only begins beyond. */
  readonly first: string;
  readonly beyond?: true;
  readonly extent: Extent;
  /** For those whose extent is a pattern's. */
  readonly pattern?: RegExp;
}

const small = "abcdefghijklmnopqrstuvwxyz";

/** In the order in which they are tried. */
export const ways: readonly Way[] = [
  by("space", " \t\n\r\v\f", new RegExp(`${blank.source}+`, "y"), true),
  by(t.Word, small + small.toUpperCase(), /[A-Za-z][\w\u0080-\uffff-]*/y),
  by(t.Digits, "0123456789", /0[xX][0-9A-Fa-f]+|\d+(?:-\d+-\d+|,\d+(?!\d|\.\.)|\.\d+)?/y),
  { what: t.Text, first: '"', extent: endOfText },
  sign(t.Range, ".."),
  sign(t.Dot, "."),
  sign(t.Open, "{"),
  sign(t.Close, "}"),
  by("comment", "/", /\/\/[^\r\n]*/y),
  { what: t.BlockComment, first: "/", extent: endOfBlockComment },
  sign(t.Comma, ","),
  sign(t.Plus, "+"),
  sign(t.Equals, "="),
  sign(t.Colon, ":"),
  sign(t.Bar, "|"),
  sign(t.Star, "*"),
  sign(t.Hash, "#"),
  sign(t.Percent, "%"),
  by(t.Negative, "-", /-\d+(?:\.\d+)?/y),
  by(t.Hand, "[", /\[[^\]\r\n"{}]*\]?/y),
  by(t.CurlyText, "", /[“”„‟][^“”„‟"\r\n]*[“”„‟"]?/y, true),
  by(
    t.ForeignWord,
    "_",
    /[_\u0080-\u009f\u00a1-\u167f\u1681-\u1fff\u2030-\u205e\u2070-\u2fff\u3001-\ufefe\uff00-\uffff][\w\u0080-\u009f\u00a1-\u1fff\u2070-\u2fff\u3001-\ufefe\uff00-\uffff-]*/y,
    true,
  ),
];

const byFirst: readonly (readonly Way[])[] = Array.from({ length: 128 }, (_, code) => {
  const first = String.fromCharCode(code);
  return ways.filter(way => way.first.includes(first));
});
const byFirstBeyond = ways.filter(way => way.beyond);

/** Never throws; every character is in a token, a comment or a space. Takes time that grows with the text's length. */
export function cut(text: string): Cut {
  lastStarSlash = text.lastIndexOf("*/");
  const tokens: IToken[] = [];
  const comments: IToken[] = [];
  for (let at = 0; at < text.length; ) {
    let what: Way["what"] = t.Other;
    let end = at + 1;
    for (const way of byFirst[text.charCodeAt(at)] ?? byFirstBeyond) {
      const reaches = way.extent(text, at);
      if (reaches === at) continue;
      what = way.what;
      end = reaches;
      break;
    }
    if (what === "comment") comments.push(token(t.LineComment, text, at, end));
    else if (what !== "space") tokens.push(token(what, text, at, end));
    at = end;
  }
  return { tokens, comments };
}

function token(tokenType: TokenType, text: string, start: number, end: number): IToken {
  return { image: text.substring(start, end), startOffset: start, tokenTypeIdx: tokenType.tokenTypeIdx as number, tokenType };
}

function by(what: Way["what"], first: string, pattern: RegExp, beyond?: true): Way {
  const extent = (text: string, at: number): number => {
    pattern.lastIndex = at;
    return pattern.test(text) ? pattern.lastIndex : at;
  };
  return { what, first, extent, pattern, ...(beyond && { beyond }) };
}

function sign(what: TokenType, image: string): Way {
  return { what, first: image.charAt(0), extent: (text, at) => (text.startsWith(image, at) ? at + image.length : at) };
}

/**
 * A quoted text up to its closing quote or the end of its line. Written out instead of as a pattern: a pattern with a repeated
 * group runs out of stack on a line of many million characters.
 */
function endOfText(text: string, at: number): number {
  let index = at + 1;
  for (; index < text.length; index++) {
    const unit = text.charCodeAt(index);
    if (unit === 34) {
      index++;
      break;
    }
    if (unit === 10 || unit === 13) break;
    const next = text.charCodeAt(index + 1);
    if (unit === 92 && next !== 10 && next !== 13) index++;
  }
  return Math.min(index, text.length);
}

/** Where the text that is being cut has its last star-slash: looked for once, so that many unclosed comments stay linear. */
let lastStarSlash = -1;

/** From slash-star to star-slash, or the two characters alone where nothing closes them. */
function endOfBlockComment(text: string, at: number): number {
  if (text.charCodeAt(at + 1) !== 42) return at;
  const end = at + 2 <= lastStarSlash ? text.indexOf("*/", at + 2) : -1;
  return end < 0 ? at + 2 : end + 2;
}
