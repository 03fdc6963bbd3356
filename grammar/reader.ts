/**
 * What every rule of the grammar is made with: reporting what is missing, skipping what does not belong, going on after it.
 *
 * The rules never fail. Each piece of a fact is optional to the parser, and a rule that misses one reports it and goes on; so
 * half-typed text keeps its tree, and one slip never hides the rest of a file.
 */

import type { IToken, TokenType } from "chevrotain";
import { EmbeddedActionsParser, EOF } from "chevrotain";
import { found, keyMeant, nearest, spoken } from "./found.ts";
import { isFirstOnLine, isSameLine } from "./lines.ts";
import { NextToken } from "./next-token.ts";
import * as t from "./tokens.ts";
import type { Problem, Span } from "./tree.ts";

/** What a line that does not belong is told, and how far it goes. */
export interface Expectation {
  /** "a relay, a setting or a note" */
  readonly what: string;
  /** The words that may begin something here, for "did you mean". */
  readonly words: readonly string[];
  /** Places (entries) stand one step further in: lines of them here have lost the line that begins their relay. */
  readonly places?: true;
  /** A declaration may follow on the same line. */
  readonly declarations?: true;
  /** Keys may stand here, so that a word in small letters may be one. */
  readonly keys?: true;
}

const nothingExpected: Expectation = { what: "", words: [] };

export class Reader extends EmbeddedActionsParser {
  protected text = "";
  protected problems: Problem[] = [];
  /** Where a word was read as a unit that is none of ours: what is wrong with it as a word is another's to say. */
  protected unknownUnits = new Set<number>();
  /** The token behind which something was missing last, and the last that was skipped: what follows from one slip is reported once. */
  private reportedBehind: IToken | undefined;
  private skippedTo: IToken | undefined;

  constructor(checked: boolean) {
    super(t.vocabulary, { maxLookahead: 1, lookaheadStrategy: new NextToken(), recoveryEnabled: false, skipValidations: !checked });
  }

  /** Takes a text and its tokens. */
  protected begin(text: string, tokens: IToken[]): void {
    this.text = text;
    this.problems = [];
    this.unknownUnits = new Set();
    this.reportedBehind = undefined;
    this.skippedTo = undefined;
    this.input = tokens;
  }

  /* Reporting */

  protected report(start: number, end: number, message: string, related?: Problem["related"]): void {
    this.problems.push({ code: "syntax", start, end, message, related });
  }

  /** Something is missing behind the token before: reported at that token's end, once for each place. */
  protected missing(what: string, after?: string): void {
    const before = this.LA(0);
    if (this.reportedBehind === before || this.skippedTo === before) return;
    this.reportedBehind = before;
    const at = t.endOf(before);
    this.report(at, at, `expected ${what} after ${after ?? spoken(before)}, found ${found(this.LA(1))}`);
  }

  /** A fact that is said a second time. Only the first one counts. */
  protected twice(what: string, first: Span, second: Span): void {
    this.report(second.start, second.end, `expected ${what} once, found it a second time`, [
      { start: first.start, end: first.end, message: `${what} is first said here` },
    ]);
  }

  /** Keeps the first of each single fact in a block, and reports the later ones. `key` tells apart what the words do not. */
  protected once(seen: Map<string, Span>, what: string, said: Span, key = what): void {
    const first = seen.get(key);
    if (first === undefined) seen.set(key, said);
    else this.twice(what, first, said);
  }

  /* Looking */

  protected isNext(type: TokenType): boolean {
    return this.LA(1).tokenType === type;
  }

  protected isAfterNext(type: TokenType): boolean {
    return this.LA(2).tokenType === type;
  }

  /** The next token stands on the line of the one before it. */
  protected isSameLine(): boolean {
    const next = this.LA(1);
    return next.tokenType !== EOF && isSameLine(this.text, t.endOf(this.LA(0)), next.startOffset);
  }

  protected isFirstOnLine(token: IToken): boolean {
    return isFirstOnLine(this.text, token.startOffset);
  }

  /** How far a token is set in, for one that is first on its line; undefined for any other. */
  protected indentOf(token: IToken): number | undefined {
    if (!this.isFirstOnLine(token)) return undefined;
    let start = token.startOffset;
    while (start > 0 && this.text[start - 1] !== "\n" && this.text[start - 1] !== "\r") start--;
    return token.startOffset - start;
  }

  protected isA(token: IToken, category: TokenType): boolean {
    return token.tokenType === category || (category.categoryMatchesMap?.[token.tokenTypeIdx] ?? false);
  }

  /** The next token can be a name here: on this line any word, on a later one no word that begins something of its own. */
  protected isName(): boolean {
    const next = this.LA(1);
    const type = next.tokenType;
    if (type === t.Word || type === t.Capital) return true;
    return this.isSameLine() || this.isA(this.LA(2), t.Text);
  }

  /* Blocks */

  /** The block goes on: neither its end, nor a declaration that follows an end which is missing. `indent` is that of the word that opened it. */
  protected goesOn(indent: number | undefined): boolean {
    const next = this.LA(1);
    if (next.tokenType === t.Close) return this.isStrayClose(indent);
    return next.tokenType !== EOF && !(this.isA(next, t.First) && this.isA(next, t.Declares));
  }

  /** A closing brace that cannot end the block, because more of the block follows: set in deeper than the word that opened it, and so is what follows. */
  private isStrayClose(indent: number | undefined): boolean {
    if (indent === undefined) return false;
    const close = this.indentOf(this.LA(1));
    if (close !== undefined && close <= indent) return false;
    const after = this.LA(2);
    if (after.tokenType === EOF || this.isA(after, t.Declares)) return false;
    const next = this.indentOf(after);
    if (next === undefined) return false;
    // A block that stands on one line is followed by the end of the block around it, which is set in less: unless nothing is set in at all.
    return after.tokenType === t.Close ? next >= indent && indent > 0 : next > indent;
  }

  /** What stands between the facts of a block's first line and its opening brace, and belongs to neither. */
  protected readonly headJunk = this.RULE("headJunk", (what: string): void => {
    const first = this.LA(1);
    const quiet = this.reportedBehind === this.LA(0);
    let end = first.startOffset;
    this.MANY({
      GATE: () => !this.isNext(t.Open) && this.isOpenAhead(),
      DEF: () => {
        end = t.endOf(this.CONSUME(t.Any));
      },
    });
    if (end > first.startOffset && !quiet) this.report(first.startOffset, end, `expected ${what}, found ${found(first)}`);
  });

  private isOpenAhead(): boolean {
    for (let ahead = 1, end = t.endOf(this.LA(0)); ; ahead++) {
      const token = this.LA(ahead);
      const type = token.tokenType;
      if (type === EOF || type === t.Close || t.isBeginning(token) || !isSameLine(this.text, end, token.startOffset)) return false;
      // A text without its end has taken the brace with it.
      if (type === t.Open || type === t.UnclosedText) return true;
      end = t.endOf(token);
    }
  }

  /** The end of a block: its span, from brace to brace. */
  protected blockOf(open: IToken | undefined, close: IToken | undefined, what: string): Span | undefined {
    if (open !== undefined && close === undefined) this.missing(`\`}\` to end the ${what}`);
    if (open === undefined) return undefined;
    return { start: open.startOffset, end: close === undefined ? t.endOf(this.LA(0)) : t.endOf(close) };
  }

  /** Skips what does not belong here: the rest of its line, and the block that the line opens. */
  protected readonly junk = this.RULE("junk", (expected: Expectation): void => {
    const first = this.LA(1);
    const before = this.LA(0);
    const quiet = (this.reportedBehind === before && this.isSameLine()) || (first.tokenType === t.Close && this.skippedTo === before);
    const arePlaces = this.ACTION(() => expected.places === true && this.isPlace(expected));
    const start = first.startOffset;
    let end = start;
    let depth = 0;
    let more = true;
    this.AT_LEAST_ONE({
      GATE: () => more,
      DEF: () => {
        const token = this.CONSUME(t.Any);
        if (depth === 0 && isSameLine(this.text, end, token.startOffset)) end = t.endOf(token);
        if (token.tokenType === t.Open && !this.isSameLine()) depth++;
        else if (token.tokenType === t.Close && depth > 0) depth--;
        more =
          this.skipsOn(expected ?? nothingExpected, first, arePlaces, depth) &&
          !(depth === 0 && expected?.declarations && this.isDeclaration());
      },
    });
    this.ACTION(() => {
      this.skippedTo = this.LA(0);
      if (quiet) return;
      const near = nearest(first.image, expected.words);
      // What begins a line of a model was meant for a fact.
      const isKey = expected.keys === true && !(expected.words.length > 0 && this.isFirstOnLine(first));
      const key = isKey ? keyMeant(first.image) : undefined;
      const guess = near === undefined ? key : `did you mean \`${near}\`?`;
      this.report(start, end, `expected ${expected.what}, found ${found(first)}${guess === undefined ? "" : `; ${guess}`}`);
    });
  });

  /** A declaration begins: first on its line by its word alone, elsewhere when a name and a text follow as they must. */
  protected isDeclaration(): boolean {
    const next = this.LA(1);
    if (!this.isA(next, t.Declares)) return false;
    return this.isA(next, t.First) || this.isA(this.LA(2), t.Text) || (this.isA(this.LA(2), t.Name) && this.isA(this.LA(3), t.Text));
  }

  /**
   * The rest of a line that began with its fact and was reported already: what a slip left of it would only be reported again.
   * @param fact the word that begins the fact; `known` the number of problems before it.
   */
  protected readonly restOfLine = this.RULE("restOfLine", (fact: Span, known: number, open?: boolean): void => {
    // Nearly every line is whole, and nothing need be made ready to skip what is left of it.
    if (this.ACTION(() => this.problems.length === known)) return;
    const isDamaged = this.ACTION(() => isFirstOnLine(this.text, fact.start));
    this.MANY({
      GATE: () => isDamaged && this.isSameLine() && !this.endsBlock() && !(open && this.isDeclaration()),
      DEF: () => this.CONSUME(t.Any),
    });
  });

  /** A closing brace at the end of a line, which may end the block around the damaged fact. */
  private endsBlock(): boolean {
    const next = this.LA(1);
    return next.tokenType === t.Close && this.endsLine(next);
  }

  /** The next token belongs to what is skipped. */
  private skipsOn(expected: Expectation, first: IToken, arePlaces: boolean, depth: number): boolean {
    const next = this.LA(1);
    if (next.tokenType === EOF) return false;
    if (depth > 0) return !(this.isA(next, t.First) && this.isA(next, t.Declares));
    if (this.isSameLine()) return next.tokenType !== t.Close || !this.endsLine(next) || this.isDamagedField();
    // Entries whose relay lost its first line, and facts whose block did, are one slip.
    if (arePlaces) return this.isPlace(expected);
    return this.isA(first, t.First) && this.isA(next, t.First) && !this.isA(next, t.Declares) && !expected.words.includes(next.image);
  }

  /** The next token begins an entry: a slot, what a record holds, or a holder's name that is no word meant for something else. */
  private isPlace(expected: Expectation): boolean {
    const next = this.LA(1);
    if (next.tokenType === t.Digits || this.isLostCode()) return true;
    if (!this.isA(next, t.Name)) return next.image === "tag";
    return !expected.words.includes(next.image) && nearest(next.image, expected.words) === undefined;
  }

  /** The code of a place without a number, where only the length of codes may be said. */
  protected isLostCode(): boolean {
    return this.isA(this.LA(1), t.keyword("code")) && this.isAfterNext(t.Digits);
  }

  private endsLine(token: IToken): boolean {
    const after = this.LA(2);
    return after.tokenType === EOF || !isSameLine(this.text, t.endOf(token), after.startOffset);
  }

  /** In `code} OK` the brace ends a field that lost its beginning. Told by the block going on behind it. */
  private isDamagedField(): boolean {
    const after = this.LA(2);
    return after.tokenType === t.Close || (after.tokenType !== EOF && !this.isA(after, t.Declares));
  }
}
