/**
 * The words and signs of the language: every keyword is written here once, and here is every type of token.
 *
 * The lexer (`lexer.ts`) knows one kind of word. A pass after it tells keywords from names, because what a word is depends on where it
 * stands: a beginning word that is first on its line begins something there and is no name (see `beginningWords`).
 */

import type { IToken, TokenType } from "chevrotain";
import { createToken } from "chevrotain";

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

/** A type of token. Its categories are said afterwards: the parser takes them in all at once, a new type all over again. */
function type(name: string, categories: TokenType[] = []): TokenType {
  const made = createToken({ name });
  made.CATEGORIES = categories;
  return made;
}

/** Any token at all: what is skipped after a slip. */
export const Any = type("Any");
/** A word where it can be a name. Its category is said at once: a parser looks whether there are any before it takes them all in. */
export const Name = createToken({ name: "Name", categories: [Any] });
/** A beginning word that is first on its line. */
export const First = type("First", [Any]);
/** Words that begin a declaration, wherever they stand. */
export const Declares = type("Declares", [Any]);
/** Words that begin a model's operation. */
export const Operates = type("Operates", [Any]);

export const Text = type("Text", [Any]);
export const UnclosedText = type("UnclosedText", [Text]);
export const CurlyText = type("CurlyText", [Text]);

/** A run of digits. The other numbers are told from it after cutting. */
export const Digits = type("Digits", [Any]);
export const Hexadecimal = type("Hexadecimal", [Any]);
/** Facility and number of a tag: `123,00334`. */
export const FacilityNumber = type("FacilityNumber", [Any]);
export const DateWord = type("DateWord", [Any]);
/** `13.8`, and a number below zero. */
export const Decimal = type("Decimal", [Any]);
export const Negative = type("Negative", [Decimal]);

export const Word = type("Word", [Name]);
/** A word in capitals: a named key, where keys are expected. */
export const Capital = type("Capital", [Name]);
/** A word with letters that a name cannot have. */
export const ForeignWord = type("ForeignWord", [Name]);

export const Hand = type("Hand", [Any]);
export const UnclosedHand = type("UnclosedHand", [Hand]);

export const Open = type("Open", [Any]);
export const Close = type("Close", [Any]);
export const Colon = type("Colon", [Any]);
export const Range = type("Range", [Any]);
export const Dot = type("Dot", [Any]);
export const Plus = type("Plus", [Any]);
export const Equals = type("Equals", [Any]);
export const Comma = type("Comma", [Any]);
export const Bar = type("Bar", [Any]);
export const Star = type("Star", [Any]);
export const Hash = type("Hash", [Any]);
export const Percent = type("Percent", [Any]);
export const BlockComment = type("BlockComment", [Any]);
/** What none of the others is. */
export const Other = type("Other", [Any]);
/** Never given to the parser. */
export const LineComment = type("LineComment");

/** What the parser asks for by word. A beginning word matches wherever it stands; its `Inside` matches only where it is not first on its line. */
const declares = new Set<string>(declarationWords);
const operates = new Set<string>(["enter", "leave", "put", "clear", "set", "open"]);

interface Beginning {
  readonly any: TokenType;
  readonly inside: TokenType;
  readonly first: TokenType;
}

function beginning(word: BeginningWord): Beginning {
  const any = type(`"${word}"`, declares.has(word) ? [Declares] : [Any]);
  return { any, inside: type(`${word} inside`, [any, Name]), first: type(`${word} first`, [any, First]) };
}

const beginnings = new Map<string, Beginning>(beginningWords.map(word => [word, beginning(word)]));
const deciders = new Map<string, TokenType>(
  decidingWords.map(word => [word, type(`"${word}"`, operates.has(word) ? [Name, Operates] : [Name])]),
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

/** Every token type, for the parser. */
export const vocabulary: TokenType[] = [
  Any,
  Name,
  First,
  Declares,
  Operates,
  Text,
  UnclosedText,
  CurlyText,
  Digits,
  Hexadecimal,
  FacilityNumber,
  DateWord,
  Decimal,
  Negative,
  Word,
  Capital,
  ForeignWord,
  Hand,
  UnclosedHand,
  Open,
  Close,
  Colon,
  Range,
  Dot,
  Plus,
  Equals,
  Comma,
  Bar,
  Star,
  Hash,
  Percent,
  BlockComment,
  Other,
  ...[...beginnings.values()].flatMap(word => [word.any, word.inside, word.first]),
  ...deciders.values(),
];

/** What a word is when it is not first on its line, and when it is. */
export function typesOf(image: string): { readonly inside: TokenType; readonly first: TokenType } | undefined {
  return wordTypes.get(image);
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
