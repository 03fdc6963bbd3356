/**
 * The words and signs of the language: every keyword is written here once, and here text becomes tokens.
 *
 * The lexer knows one kind of word. A pass after it tells keywords from names, because what a word is depends on where it
 * stands: a beginning word that is first on its line begins something there and is no name (see `beginningWords`).
 */

import type { IToken, TokenType } from "chevrotain";
import { createToken, Lexer } from "chevrotain";

/** First on their line and not followed by a dot, these begin a declaration, a fact or a credential. They are never a name there. */
export const beginningWords = [
  "use",
  "site",
  "policy",
  "holder",
  "model",
  "keypad",
  "fitted",
  "door",
  "supply",
  "relay",
  "installer",
  "all-relay",
  "setting",
  "note",
  "address",
  "contact",
  "code",
  "tag",
  "until",
] as const;

/** Those of the beginning words that begin a declaration. */
export const declarationWords = ["use", "site", "policy", "holder", "model", "keypad", "fitted", "door", "supply"] as const;

/** Words that the parser decides by. They may be names wherever a name is expected. */
const decidingWords = [
  "spare",
  "no",
  "release",
  "toggle",
  "or",
  "with",
  "unknown",
  "partly",
  "lost",
  "length",
  "weak",
  "near",
  "guess",
  "odds",
  "keys",
  "relays",
  "slots",
  "codes",
  "rewrite",
  "twins",
  "relength",
  "settle",
  "lapse",
  "lockout",
  "refused",
  "cancel",
  "reset",
  "tags",
  "session",
  "listens",
  "acts",
  "draws",
  "factory",
  "enter",
  "leave",
  "put",
  "clear",
  "set",
  "open",
  "shows",
  "wipes",
  "lock",
  "cable",
  "exit",
  "route",
  "battery",
  "feeds",
] as const;

/** Words that stand only inside a fixed phrase (`per relay`, `closes to open`). */
const phraseWords = [
  "warn",
  "refuse",
  "allow",
  "digits",
  "in",
  "per",
  "shared",
  "unnumbered",
  "one",
  "holds",
  "tries",
  "none",
  "bits",
  "entry",
  "follows",
  "free",
  "by",
  "keeps",
  "what",
  "was",
  "stored",
  "clears",
  "replaces",
  "first",
  "fires",
  "all",
  "fire",
  "from",
  "the",
  "key",
  "to",
  "last",
  "at",
  "once",
  "after",
  "a",
  "pause",
  "both",
  "slot",
  "everything",
  "on",
  "alarm",
  "people",
  "strike",
  "magnet",
  "bolt",
  "motor",
  "start",
  "fail-safe",
  "fail-secure",
  "stays",
  "AC",
  "DC",
  "inrush",
  "resistive",
  "within",
  "closes",
  "opens",
  "class",
  "bar",
  "lever",
  "button",
  "escape",
  "for",
  "down",
] as const;

/** Names of the fields that an operation's keys may hold: `{slot}`. */
export const fieldNames = ["installer", "code", "tag", "relay", "relay-number", "slot", "seconds", "digits", "value"] as const;

/** Units as written after a number. */
export const units = ["s", "h", "V", "A", "mA", "Ah", "m", "mm2", "mm²", "AWG", "C", "°C", "%"] as const;

/** Every keyword of the language, each once. */
export const keywords: readonly string[] = [...beginningWords, ...decidingWords, ...phraseWords];

export type BeginningWord = (typeof beginningWords)[number];
export type DecidingWord = (typeof decidingWords)[number];

/** A type that no pattern makes. Its categories are said afterwards: lexer and parser take them in all at once, a new type all over again. */
function abstract(name: string, categories: TokenType[] = []): TokenType {
  const type = createToken({ name, pattern: Lexer.NA });
  type.CATEGORIES = categories;
  return type;
}

/** Any token at all: what is skipped after a slip. */
export const Any = abstract("Any");
/** A word where it can be a name. */
export const Name = abstract("Name", [Any]);
/** A beginning word that is first on its line. */
export const First = abstract("First", [Any]);
/** Words that begin a declaration, wherever they stand. */
export const Declares = abstract("Declares", [Any]);
/** Words that begin a model's operation. */
export const Operates = abstract("Operates", [Any]);

/** Codes of characters from one to another, both included. */
const codes = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);

/**
 * Every character, and one for each stretch of 255 beyond the first 256: the lexer sorts its patterns by first characters in that grain.
 * Said here, it need not be worked out from the patterns, one character after the other, at every start.
 */
const beyondLatin = Array.from({ length: 257 }, (_, stretch) => Math.min(0xffff, 256 + stretch * 255));
const anyCharacter = [...codes(0, 255), ...beyondLatin];

export const Text = createToken({
  name: "Text",
  pattern: { exec: readText },
  categories: [Any],
  line_breaks: false,
  start_chars_hint: ['"'],
});
export const UnclosedText = abstract("UnclosedText", [Text]);
export const CurlyText = createToken({
  name: "CurlyText",
  pattern: /[“”„‟][^“”„‟"\r\n]*[“”„‟"]?/,
  categories: [Text],
  start_chars_hint: ["“", "”", "„", "‟"],
});

/** A run of digits. The other numbers are told from it after lexing. */
export const Digits = createToken({
  name: "Digits",
  pattern: /0[xX][0-9A-Fa-f]+|\d+(?:-\d+-\d+|,\d+(?!\d|\.\.)|\.\d+)?/,
  categories: [Any],
  start_chars_hint: codes(0x30, 0x39),
});
export const Hexadecimal = abstract("Hexadecimal", [Any]);
/** Facility and number of a tag: `123,00334`. */
export const FacilityNumber = abstract("FacilityNumber", [Any]);
export const DateWord = abstract("DateWord", [Any]);
/** `13.8`, and a number below zero. */
export const Decimal = abstract("Decimal", [Any]);
const Negative = createToken({ name: "Negative", pattern: /-\d+(?:\.\d+)?/, categories: [Decimal] });

export const Word = createToken({
  name: "Word",
  pattern: /[A-Za-z][\w\u0080-\uffff-]*/,
  categories: [Name],
  start_chars_hint: [...codes(0x41, 0x5a), ...codes(0x61, 0x7a)],
});
/** A word in capitals: a named key, where keys are expected. */
export const Capital = abstract("Capital", [Name]);
/** A word with letters that a name cannot have. */
export const ForeignWord = createToken({
  name: "ForeignWord",
  pattern:
    /[_\u0080-\u009f\u00a1-\u167f\u1681-\u1fff\u2030-\u205e\u2070-\u2fff\u3001-\ufefe\uff00-\uffff][\w\u0080-\u009f\u00a1-\u1fff\u2070-\u2fff\u3001-\ufefe\uff00-\uffff-]*/,
  categories: [Name],
  start_chars_hint: [0x5f, ...codes(0x80, 0xff), ...beyondLatin],
});

export const Hand = createToken({ name: "Hand", pattern: /\[[^\]\r\n"{}]*\]?/, categories: [Any] });
export const UnclosedHand = abstract("UnclosedHand", [Hand]);

const sign = (name: string, pattern: string): TokenType => createToken({ name, pattern, categories: [Any] });
export const Open = sign("Open", "{");
export const Close = sign("Close", "}");
export const Colon = sign("Colon", ":");
export const Range = sign("Range", "..");
export const Dot = sign("Dot", ".");
export const Plus = sign("Plus", "+");
export const Equals = sign("Equals", "=");
export const Comma = sign("Comma", ",");
export const Bar = sign("Bar", "|");
export const Star = sign("Star", "*");
export const Hash = sign("Hash", "#");
export const Percent = sign("Percent", "%");
export const BlockComment = createToken({
  name: "BlockComment",
  pattern: { exec: readBlockComment },
  categories: [Any],
  line_breaks: true,
  start_chars_hint: ["/"],
});
const Other = createToken({
  name: "Other",
  pattern: /[\u0000-\uffff]/,
  categories: [Any],
  line_breaks: true,
  start_chars_hint: anyCharacter,
});

const Space = createToken({
  name: "Space",
  pattern: /[ \t\n\r\v\f\u00a0\u1680\u2000-\u200f\u2028\u2029\u202f\u205f\u2060\u3000\ufeff]+/,
  start_chars_hint: [0x20, ...codes(9, 13), 0xa0, 0x1680, ...codes(0x2000, 0x200f), 0x2028, 0x2029, 0x202f, 0x205f, 0x2060, 0x3000, 0xfeff],
  group: Lexer.SKIPPED,
  line_breaks: true,
});
const LineComment = createToken({ name: "LineComment", pattern: /\/\/[^\r\n]*/, group: "comments", line_breaks: false });

/** What the parser asks for by word. A beginning word matches wherever it stands; its `Inside` matches only where it is not first on its line. */
const declares = new Set<string>(declarationWords);
const operates = new Set<string>(["enter", "leave", "put", "clear", "set", "open"]);

interface Beginning {
  readonly any: TokenType;
  readonly inside: TokenType;
  readonly first: TokenType;
}

function beginning(word: BeginningWord): Beginning {
  const any = abstract(`"${word}"`, declares.has(word) ? [Declares] : [Any]);
  return { any, inside: abstract(`${word} inside`, [any, Name]), first: abstract(`${word} first`, [any, First]) };
}

const beginnings = new Map<string, Beginning>(beginningWords.map(word => [word, beginning(word)]));
const deciders = new Map<string, TokenType>(
  decidingWords.map(word => [word, abstract(`"${word}"`, operates.has(word) ? [Name, Operates] : [Name])]),
);

/** The token type of a keyword that the parser decides by. */
export function keyword(word: BeginningWord | DecidingWord): TokenType {
  return (beginnings.get(word)?.any ?? deciders.get(word)) as TokenType;
}

/** The type of a beginning word where it stands inside a line, so that a half-typed fact does not take the next one's first word. */
export function inside(word: BeginningWord): TokenType {
  return (beginnings.get(word) as Beginning).inside;
}

/** The type of a beginning word that is first on its line. */
export function first(word: BeginningWord): TokenType {
  return (beginnings.get(word) as Beginning).first;
}

const wordTypes = new Map<string, { readonly inside: TokenType; readonly first: TokenType }>([
  ...beginnings,
  ...[...deciders].map(([word, type]) => [word, { inside: type, first: type }] as const),
]);

const lexed = [
  Space,
  Word,
  Digits,
  Text,
  Dot,
  Range,
  Open,
  Close,
  LineComment,
  BlockComment,
  Comma,
  Plus,
  Equals,
  Colon,
  Bar,
  Star,
  Hash,
  Percent,
  Negative,
  Hand,
  CurlyText,
  ForeignWord,
  Other,
];
// `..` must be tried before `.`.
lexed.splice(lexed.indexOf(Dot), 2, Range, Dot);

const told = [Any, Name, First, Declares, Operates, UnclosedText, Hexadecimal, FacilityNumber, DateWord, Decimal, Capital, UnclosedHand];

/** Every token type, for the parser. */
export const vocabulary: TokenType[] = [
  ...lexed.filter(type => type !== Space && type !== LineComment),
  ...told,
  ...[...beginnings.values()].flatMap(word => [word.any, word.inside, word.first]),
  ...deciders.values(),
];

/** In the order in which they are tried; the rest is told apart afterwards. */
export const lexedTypes: readonly TokenType[] = [...lexed, ...vocabulary.filter(type => !lexed.includes(type))];

/** What a word is when it is not first on its line, and when it is. */
export function typesOf(image: string): { readonly inside: TokenType; readonly first: TokenType } | undefined {
  return wordTypes.get(image);
}

/**
 * A quoted text up to its closing quote or the end of its line. Written out instead of as a pattern: a pattern with a repeated
 * group runs out of stack on a line of many million characters.
 */
function readText(text: string, offset: number): [string] | null {
  if (text.charCodeAt(offset) !== 34) return null;
  let index = offset + 1;
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
  return [text.slice(offset, Math.min(index, text.length))];
}

/** Where the text that is being read has its last star-slash: looked for once, so that many unclosed comments stay linear. */
let lastStarSlash = -1;

/** To be called before a text is cut into tokens. */
export function beginText(text: string): void {
  lastStarSlash = text.lastIndexOf("*/");
}

/** From slash-star to star-slash, or the two characters alone where nothing closes them. */
function readBlockComment(text: string, offset: number): [string] | null {
  if (text.charCodeAt(offset) !== 47 || text.charCodeAt(offset + 1) !== 42) return null;
  const end = offset + 2 <= lastStarSlash ? text.indexOf("*/", offset + 2) : -1;
  return [text.slice(offset, end < 0 ? offset + 2 : end + 2)];
}

/** A word that begins a declaration, a fact or a credential, wherever it stands. */
export function isBeginning(token: IToken): boolean {
  return beginnings.has(token.image);
}

export function endOf(token: IToken): number {
  return token.startOffset + token.image.length;
}

/** What a text token says, without its quotes and with its escapes resolved. */
export function textOf(token: IToken): string {
  const image = token.image;
  const open = token.tokenType === UnclosedText || (token.tokenType === CurlyText && !/[“”„‟"]$/.test(image.slice(1)));
  const inner = open ? withoutCode(image.slice(1)) : image.slice(1, -1);
  return inner.includes("\\") ? inner.replace(/\\(["\\])/g, "$1") : inner;
}

/** A text that is not closed takes in the rest of its line, and with it the code that stands there: a label is shown, a code never. */
function withoutCode(text: string): string {
  const code = text.search(/\d{3}/);
  return code < 0 ? text : text.slice(0, code).trimEnd();
}
