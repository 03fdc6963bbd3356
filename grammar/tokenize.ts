/** Text to tokens: cut by the lexer, then told apart by what they are and where they stand. */
import type { IToken, TokenType } from "chevrotain";
import { lex } from "./lexer.ts";
import { isDotAfter, isFirstOnLine } from "./lines.ts";
import * as t from "./tokens.ts";
import { endOf } from "./tokens.ts";
import type { Comment, Problem } from "./tree.ts";

export interface Tokens {
  readonly tokens: IToken[];
  readonly comments: readonly Comment[];
  /** What is wrong with single tokens: a text without its end, a date that is none. */
  readonly problems: Problem[];
}

/** Cuts a text into tokens and says what each word is. Never throws; every character is in a token, a comment or a space. */
export function tokenize(text: string): Tokens {
  const { tokens, comments } = lex(text);
  const problems: Problem[] = [];
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index] as IToken;
    switch (token.tokenType) {
      case t.Word:
        tellWord(token, text, problems);
        if (index > 0) checkGap(tokens[index - 1] as IToken, token, problems);
        break;
      case t.Digits:
        if (token.image.length > 2) tellNumber(token, problems);
        break;
      case t.Text:
        tellText(token, problems);
        break;
      case t.Hand:
        if (!token.image.endsWith("]")) {
          become(token, t.UnclosedHand);
          problems.push(
            at(endOf(token), endOf(token), `expected \`]\` at the end of what the hand does, found ${nextSign(text, endOf(token))}`),
          );
        }
        break;
      case t.CurlyText:
        problems.push(at(token.startOffset, endOf(token), 'expected straight quotes (") around a text, found curly ones'));
        break;
      case t.ForeignWord:
        if (!unitSet.has(token.image)) problems.push(at(token.startOffset, endOf(token), foreign(token.image)));
        break;
      case t.BlockComment:
        problems.push(at(token.startOffset, token.startOffset + 2, "expected `//` to begin a comment, found `/*`"));
        break;
    }
  }
  const kept = problems.length > 0 ? tokens.filter(token => token.tokenType !== t.BlockComment) : tokens;
  return { tokens: kept, comments: comments.map(token => comment(token, text)), problems };
}

function foreign(image: string): string {
  if (/^\p{Nd}/u.test(image)) return "expected digits 0 to 9, found those of another script";
  return "expected a name of letters a to z, digits, `-` and `_`, found another character";
}

const unitSet: ReadonlySet<string> = new Set(t.units);

function at(start: number, end: number, message: string): Problem {
  return { code: "syntax", start, end, message };
}

function become(token: IToken, type: TokenType): void {
  token.tokenType = type;
  token.tokenTypeIdx = type.tokenTypeIdx as number;
}

function tellWord(token: IToken, text: string, problems: Problem[]): void {
  const image = token.image;
  const types = t.typesOf(image);
  if (types !== undefined) {
    const begins = types.first !== types.inside && isFirstOnLine(text, token.startOffset) && !isDotAfter(text, endOf(token));
    become(token, begins ? types.first : types.inside);
  } else if (image.charCodeAt(0) <= 90 && capitals.test(image)) become(token, t.Capital);
  else if (!plainWord.test(image) && !unitSet.has(image)) problems.push(at(token.startOffset, endOf(token), foreign(image)));
}

const capitals = /^[A-Z][A-Z0-9_-]*$/;
const plainWord = /^[\w-]*$/;

function checkGap(before: IToken, word: IToken, problems: Problem[]): void {
  if (before.tokenType === t.Digits && endOf(before) === word.startOffset && !unitSet.has(word.image)) {
    problems.push(
      at(
        word.startOffset,
        word.startOffset,
        `expected a space between the number and the word after it, found none${probably(word.image)}`,
      ),
    );
  }
}

/** What a word that sticks to a number is, when it is one of the usual slips. The word may be part of a code, so that it is not repeated. */
function probably(word: string): string {
  if (/^o$/i.test(word)) return "; is the letter O meant to be the digit 0?";
  if (/^[il]$/i.test(word)) return `; is the letter ${word} meant to be the digit 1?`;
  if (/^[a-f][\da-f]*$/i.test(word)) return "; a hexadecimal number begins with `0x`";
  return "";
}

function tellNumber(token: IToken, problems: Problem[]): void {
  const image = token.image;
  for (let index = 1; index < image.length; index++) {
    const unit = image.charCodeAt(index);
    if (unit >= 48 && unit <= 57) continue;
    if (unit === 120 || unit === 88) become(token, t.Hexadecimal);
    else if (unit === 44) become(token, t.FacilityNumber);
    else if (unit === 46) become(token, t.Decimal);
    else {
      become(token, t.DateWord);
      if (!isDate(image))
        problems.push(
          at(
            token.startOffset,
            endOf(token),
            `expected a day of the calendar as year-month-day (four, two and two digits), found ${whatDay(image)}`,
          ),
        );
    }
    return;
  }
}

function nextSign(text: string, offset: number): string {
  const sign = text.charAt(offset);
  return /["{}[]/.test(sign) ? `\`${sign}\`` : "the end of the line";
}

/** Its digits are not repeated: they may be a code's. */
function whatDay(image: string): string {
  return /^\d{4}-\d\d-\d\d$/.test(image) ? "a day that no calendar has" : "other digits";
}

/** The calendar of ISO 8601: four, two and two digits, and a day that the month has. */
function isDate(image: string): boolean {
  const parts = /^(\d{4})-(\d\d)-(\d\d)$/.exec(image);
  if (parts === null) return false;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days !== undefined && day >= 1 && day <= days;
}

function tellText(token: IToken, problems: Problem[]): void {
  const image = token.image;
  if (image.length < 2 || !image.endsWith('"') || isEscaped(image, image.length - 1)) {
    become(token, t.UnclosedText);
    problems.push(at(endOf(token), endOf(token), 'expected `"` at the end of the text, found the end of the line'));
  }
  if (!image.includes("\\")) return;
  for (let index = image.indexOf("\\"); index >= 0 && index < image.length - 1; index = image.indexOf("\\", index + 2)) {
    const after = image[index + 1];
    if (after === '"' || after === "\\") continue;
    const start = token.startOffset + index;
    problems.push(at(start, start + 2, 'expected `\\"` or `\\\\` in a text, found `\\` before another character'));
  }
}

function isEscaped(image: string, index: number): boolean {
  let slashes = 0;
  while (image[index - 1 - slashes] === "\\") slashes++;
  return slashes % 2 === 1;
}

function comment(token: IToken, text: string): Comment {
  const start = token.startOffset;
  return { start, end: endOf(token), text: token.image.slice(2), alone: isFirstOnLine(text, start) };
}
