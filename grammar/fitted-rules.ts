/** Rules for `fitted`, and for the block that a model's `factory` has in the same shape. */
import type { IToken } from "chevrotain";
import { KeypadRules, keypadFacts, spokenSlot } from "./keypad-rules.ts";
import { span, str, word } from "./pieces.ts";
import type { Expectation } from "./reader.ts";
import * as t from "./tokens.ts";
import type { FittedDecl, FittedEntry, FittedFact, FittedRelay, ModelRef, Release, Span, Word } from "./tree.ts";

const fittedFacts: Expectation = { places: true, what: `a model, ${keypadFacts.what}`, words: ["model", ...keypadFacts.words] };
const fittedEntries = { what: "a slot and what it holds, or `}`", words: ["code", "tag", "unknown"] };

type Stored = Pick<FittedEntry, "unknown" | "code" | "tag" | "pair">;
const nothingStored: Stored = { unknown: undefined, code: undefined, tag: undefined, pair: undefined };

export class FittedRules extends KeypadRules {
  protected readonly fitted = this.RULE("fitted", (): FittedDecl => {
    const token = this.CONSUME(t.keyword("fitted"));
    const keyword = word(token);
    const keypad = this.SUBRULE(this.named, { ARGS: ["the name of a keypad"] });
    const unknown = this.OPTION1(() => span(this.CONSUME(t.keyword("unknown"))));
    const date = this.OPTION2(() => word(this.CONSUME(t.DateWord)));
    if (unknown === undefined && date === undefined) this.missing("a date (year-month-day) or `unknown`");
    const partly = this.OPTION3(() => span(this.CONSUME(t.keyword("partly"))));
    this.SUBRULE(this.headJunk, { ARGS: ["`{`"] });
    const facts: FittedFact[] = [];
    const body = this.SUBRULE(this.storedBlock, { ARGS: [token, facts, "record", unknown === undefined] });
    return this.ACTION(() => {
      const end = t.endOf(this.LA(0));
      return { kind: "fitted", start: keyword.start, end, keyword, keypad, unknown, date, partly, facts, body };
    });
  });

  /** What a keypad holds, in braces: a fitted record and a model's `factory`. */
  protected readonly storedBlock = this.RULE(
    "storedBlock",
    (token: IToken, facts: FittedFact[], what: string, needed: boolean): Span | undefined => {
      const indent = this.ACTION(() => this.indentOf(token));
      const seen = new Map<string, Span>();
      const list = facts ?? [];
      const open = this.OPTION1(() => this.CONSUME(t.Open));
      if (open === undefined && needed) this.missing("`{`");
      this.MANY({
        GATE: () =>
          (open !== undefined || (needed && (this.isStoredFact() || this.isModelRef(indent)))) &&
          (this.isModelRef(indent) || this.goesOn(indent)),
        DEF: () =>
          this.OR([
            { ALT: () => list.push(this.SUBRULE(this.fittedRelay)) },
            {
              GATE: () => !this.isLostCode(),
              ALT: () => {
                const known = this.problems.length;
                const fact = this.SUBRULE(this.storedFact, { ARGS: [true] });
                list.push(fact);
                this.SUBRULE1(this.restOfLine, { ARGS: [fact, known] });
                this.ACTION(() => this.onceStored(seen, fact));
              },
            },
            {
              ALT: () => {
                const known = this.problems.length;
                const fact = this.SUBRULE(this.modelRef);
                list.push(fact);
                this.SUBRULE2(this.restOfLine, { ARGS: [fact, known] });
                this.ACTION(() => this.onceStored(seen, fact));
              },
            },
            { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [fittedFacts] }) },
          ]),
      });
      const close = this.OPTION2({ GATE: () => open !== undefined || list.length > 0, DEF: () => this.CONSUME(t.Close) });
      return this.ACTION(() => this.blockOf(open, close, what));
    },
  );

  /**
   * `model dunlin-3` of a record, not the declaration of a model that follows a record whose end is missing: set in deeper than
   * the record, or with nothing behind its name that a declaration has.
   */
  protected isModelRef(indent: number | undefined): boolean {
    const next = this.LA(1);
    if (next.tokenType !== t.first("model") && next.tokenType !== t.inside("model")) return false;
    if (indent !== undefined && (this.indentOf(next) ?? 0) > indent) return true;
    return !this.isA(this.LA(2), t.Text) && !this.isA(this.LA(3), t.Text) && this.LA(3).tokenType !== t.Open;
  }

  protected readonly modelRef = this.RULE("modelRef", (): ModelRef => {
    const keyword = word(this.CONSUME(t.keyword("model")));
    const name = this.SUBRULE(this.named, { ARGS: ["the name of a model"] });
    return { kind: "model-ref", start: keyword.start, end: (name ?? keyword).end, keyword, name };
  });

  protected readonly fittedRelay = this.RULE("fittedRelay", (): FittedRelay => {
    const keyword = word(this.CONSUME(t.keyword("relay")));
    const numbers = this.SUBRULE(this.relayNumbers);
    const label = this.OPTION1(() => str(this.CONSUME(t.Text)));
    const release = this.OPTION2(() => this.SUBRULE1(this.release));
    this.OPTION3(() => {
      const again = this.SUBRULE2(this.release);
      this.ACTION(() => this.twice("`release`", release as Release, again));
    });
    this.SUBRULE(this.headJunk, { ARGS: ["`{` or `release`"] });
    const list: FittedEntry[] = [];
    const open = this.OPTION4(() => this.CONSUME(t.Open));
    if (open === undefined && this.isNext(t.Digits)) this.missing("`{`");
    this.MANY({
      GATE: () => (open !== undefined || list.length > 0 || this.isNext(t.Digits)) && this.isFittedEntryNext(open !== undefined),
      DEF: () =>
        this.OR([
          { ALT: () => list.push(this.SUBRULE(this.fittedEntry)) },
          { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [fittedEntries] }) },
        ]),
    });
    const close = this.OPTION5({ GATE: () => open !== undefined || list.length > 0, DEF: () => this.CONSUME(t.Close) });
    return this.ACTION(() => {
      const body = this.blockOf(open, close, "relay");
      return {
        kind: "fitted-relay",
        start: keyword.start,
        end: t.endOf(this.LA(0)),
        keyword,
        numbers,
        label,
        release,
        entries: list,
        body,
      };
    });
  });

  private isFittedEntryNext(open: boolean): boolean {
    const type = this.LA(1).tokenType;
    if (type === t.first("code")) return open && this.LA(2).tokenType !== t.keyword("length");
    return type === t.first("tag") ? open : this.isEntryNext();
  }

  protected readonly fittedEntry = this.RULE("fittedEntry", (): FittedEntry => {
    const start = this.LA(1).startOffset;
    let slot: Word | undefined;
    let place: Stored | undefined;
    this.OR([
      {
        ALT: () => {
          slot = word(this.CONSUME(t.Digits));
          place = this.OPTION1({ GATE: () => !this.isA(this.LA(1), t.First), DEF: () => this.SUBRULE1(this.stored) });
          if (place === undefined) this.missing("`code`, `tag` or `unknown`", spokenSlot(slot));
        },
      },
      { ALT: () => (place = this.SUBRULE2(this.stored)) },
    ]);
    return this.ACTION(() => ({ kind: "fitted-entry", start, end: t.endOf(this.LA(0)), slot, ...(place ?? nothingStored) }));
  });

  /**
   * What one place holds: a code, a tag, a pair of both, or nobody knows what. Without numbers, `unknown code …` is a place that
   * may hold that code: it could not be told from others otherwise.
   */
  private readonly stored = this.RULE("stored", (): Stored => {
    let unknown: Span | undefined;
    let code: Word | undefined;
    let tag: FittedEntry["tag"];
    let pair: Word | undefined;
    this.OR1([
      {
        ALT: () => {
          unknown = span(this.CONSUME(t.keyword("unknown")));
          this.OPTION3({
            GATE: () => this.isSameLine(),
            DEF: () =>
              this.OR4([{ ALT: () => (code = this.SUBRULE3(this.storedCode)) }, { ALT: () => (tag = this.SUBRULE3(this.storedTag)) }]),
          });
        },
      },
      { ALT: () => (code = this.SUBRULE1(this.storedCode)) },
      { ALT: () => (tag = this.SUBRULE1(this.storedTag)) },
    ]);
    this.OPTION1({
      GATE: () => unknown === undefined && this.isSameLine(),
      DEF: () => {
        pair = this.OR2([{ ALT: () => word(this.CONSUME(t.keyword("or"))) }, { ALT: () => word(this.CONSUME(t.keyword("with"))) }]);
        this.OPTION2({
          GATE: () => this.isSameLine(),
          DEF: () =>
            this.OR3([
              { ALT: () => (code = this.SUBRULE2(this.storedCode) ?? code) },
              { ALT: () => (tag = this.SUBRULE2(this.storedTag)) },
            ]),
        });
        if (code === undefined || tag === undefined) this.missing("a code and a tag as the pair");
      },
    });
    return { unknown, code, tag, pair: pair?.text as FittedEntry["pair"] };
  });

  private readonly storedCode = this.RULE("storedCode", (): Word | undefined => {
    this.CONSUME(t.keyword("code"));
    const digits = this.OPTION({ GATE: () => !this.isNextPlace(), DEF: () => word(this.CONSUME(t.Digits)) });
    if (digits === undefined) this.missing("the digits of a code");
    return digits;
  });

  private readonly storedTag = this.RULE("storedTag", (): NonNullable<FittedEntry["tag"]> => {
    this.CONSUME(t.keyword("tag"));
    const number = this.OPTION1({ GATE: () => !this.isNextPlace(), DEF: () => this.SUBRULE(this.tagNumber) });
    const mark = this.OPTION2(() => str(this.CONSUME(t.Text)));
    if (number === undefined && mark === undefined) this.missing("a tag's number, or its mark in quotes");
    return { number, mark };
  });

  /** A number on the next line that is the slot of the next place, so that a half-typed code does not take it. */
  private isNextPlace(): boolean {
    const after = this.LA(2);
    return !this.isSameLine() && !this.isA(after, t.First) && ["code", "tag", "unknown"].includes(after.image);
  }
}
