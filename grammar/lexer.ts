/** The lexer: where one token ends and the next begins. */
import type { CustomPatternMatcherReturn, IToken, TokenType } from "chevrotain";
import { createToken, Lexer } from "chevrotain";
import { blank } from "./lines.ts";
import * as t from "./tokens.ts";

export interface Lexed {
  readonly tokens: IToken[];
  readonly comments: readonly IToken[];
}

/** Codes of characters from one to another, both included. */
const codes = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, index) => from + index);
const letters = [...codes(0x41, 0x5a), ...codes(0x61, 0x7a)];

/**
 * Every character from U+0080, and one for each stretch of 255 beyond the first 256: the lexer sorts its patterns by first characters
 * in that grain.
 */
const beyondAscii = [...codes(0x80, 0xff), ...Array.from({ length: 257 }, (_, stretch) => Math.min(0xffff, 256 + stretch * 255))];

const Space = createToken({
  name: "Space",
  pattern: new RegExp(`${blank.source}+`),
  group: Lexer.SKIPPED,
  line_breaks: true,
  start_chars_hint: [0x20, ...codes(9, 13), ...beyondAscii],
});

/**
 * What is told by how it looks, in the order in which it is tried; words and numbers are told apart afterwards (`tokenize.ts`). The
 * first characters are said with each, since working them out from the patterns takes longer than to read a small site.
 */
export const lexedTypes: TokenType[] = [
  Space,
  by(t.Word, letters, /[A-Za-z][\w\u0080-\uffff-]*/),
  by(t.Digits, codes(0x30, 0x39), /0[xX][0-9A-Fa-f]+|\d+(?:-\d+-\d+|,\d+(?!\d|\.\.)|\.\d+)?/),
  by(t.Text, ['"'], extending(endOfText)),
  sign(t.Range, ".."),
  sign(t.Dot, "."),
  sign(t.Open, "{"),
  sign(t.Close, "}"),
  Object.assign(by(t.LineComment, ["/"], /\/\/[^\r\n]*/), { GROUP: "comments" }),
  by(t.BlockComment, ["/"], extending(endOfBlockComment)),
  sign(t.Comma, ","),
  sign(t.Plus, "+"),
  sign(t.Equals, "="),
  sign(t.Colon, ":"),
  sign(t.Bar, "|"),
  sign(t.Star, "*"),
  sign(t.Hash, "#"),
  sign(t.Percent, "%"),
  by(t.Negative, ["-"], /-\d+(?:\.\d+)?/),
  by(t.Hand, ["["], /\[[^\]\r\n"{}]*\]?/),
  by(t.CurlyText, ["“", "”", "„", "‟"], /[“”„‟][^“”„‟"\r\n]*[“”„‟"]?/),
  by(
    t.ForeignWord,
    ["_", ...beyondAscii],
    /[_\u0080-\u009f\u00a1-\u167f\u1681-\u1fff\u2030-\u205e\u2070-\u2fff\u3001-\ufefe\uff00-\uffff][\w\u0080-\u009f\u00a1-\u1fff\u2070-\u2fff\u3001-\ufefe\uff00-\uffff-]*/,
  ),
  by(t.Other, [...codes(0, 0x7f), ...beyondAscii], /[\u0000-\uffff]/),
];

const lexer = new Lexer(lexedTypes, { positionTracking: "onlyOffset", ensureOptimizations: true, skipValidations: true });

/** Never throws; every character is in a token, a comment or a space. Takes time that grows with the text's length. */
export function lex(text: string): Lexed {
  lastStarSlash = text.lastIndexOf("*/");
  const { tokens, groups } = lexer.tokenize(text);
  return { tokens, comments: groups.comments ?? [] };
}

type Pattern = RegExp | string | { exec(text: string, at: number): CustomPatternMatcherReturn | null };

/** Says how a type of token looks. */
function by(type: TokenType, firsts: (number | string)[], pattern: Pattern): TokenType {
  return Object.assign(type, { PATTERN: pattern, START_CHARS_HINT: firsts, LINE_BREAKS: type === t.BlockComment || type === t.Other });
}

function sign(type: TokenType, image: string): TokenType {
  return by(type, [image.charAt(0)], image);
}

/** A pattern that is written out: up to where something ends that begins at a place; the place itself if it does not begin there. */
function extending(extent: (text: string, at: number) => number): Pattern {
  return {
    exec(text, at) {
      const end = extent(text, at);
      return end > at ? [text.slice(at, end)] : null;
    },
  };
}

/**
 * A quoted text up to its closing quote or the end of its line. Written out instead of as a pattern: a pattern with a repeated
 * group runs out of stack on a line of many million characters.
 */
function endOfText(text: string, at: number): number {
  if (text.charCodeAt(at) !== 34) return at;
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

/** Where the text that is being read has its last star-slash: looked for once, so that many unclosed comments stay linear. */
let lastStarSlash = -1;

/** From slash-star to star-slash, or the two characters alone where nothing closes them. */
function endOfBlockComment(text: string, at: number): number {
  if (!text.startsWith("/*", at)) return at;
  const end = at + 2 <= lastStarSlash ? text.indexOf("*/", at + 2) : -1;
  return end < 0 ? at + 2 : end + 2;
}
