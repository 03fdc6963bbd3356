/** The pieces that facts are made of: texts, names, numbers, dates, times, quantities and fixed phrases. */
import type { IToken } from "chevrotain";
import { Reader } from "./reader.ts";
import * as t from "./tokens.ts";
import type { Quantity, Span, Str, Word } from "./tree.ts";

export class Pieces extends Reader {
  protected readonly quoted = this.RULE("quoted", (what: string): Str | undefined => {
    const said = this.OPTION(() => str(this.CONSUME(t.Text)));
    if (said !== undefined) return said;
    this.missing(what);
    return undefined;
  });

  protected readonly named = this.RULE("named", (what: string): Word | undefined => {
    const said = this.OPTION({ GATE: () => this.isName(), DEF: () => word(this.CONSUME(t.Name)) });
    if (said !== undefined) return said;
    this.missing(what);
    return undefined;
  });

  protected readonly number = this.RULE("number", (what: string): Word | undefined => {
    const said = this.OPTION(() => word(this.CONSUME(t.Digits)));
    if (said !== undefined) return said;
    this.missing(what);
    return undefined;
  });

  protected readonly date = this.RULE("date", (): Word | undefined => {
    const said = this.OPTION(() => word(this.CONSUME(t.DateWord)));
    if (said !== undefined) return said;
    this.missing("a date (year-month-day)");
    return undefined;
  });

  /** A length of time in seconds, `5s`: the number alone. */
  protected readonly time = this.RULE("time", (): Word | undefined => {
    const seconds = this.OPTION1(() => word(this.CONSUME(t.Digits)));
    if (seconds === undefined) {
      this.missing("a time in seconds");
      return undefined;
    }
    const unit = this.OPTION2({ GATE: () => this.LA(1).image === "s" && this.isSameLine(), DEF: () => this.CONSUME(t.Name) });
    if (unit === undefined) this.missing("`s` for seconds", "the number");
    return seconds;
  });

  /** One of several fixed phrases, as one word with single spaces, or a report that none is there. */
  protected readonly phrase = this.RULE("phrase", (phrases: readonly string[], what?: string): Word | undefined => {
    const said = this.OPTION({
      GATE: () => this.phraseLength(phrases) > 0,
      DEF: () => this.SUBRULE(this.saidPhrase, { ARGS: [phrases, what] }),
    });
    if (said === undefined) this.missing(what ?? oneOf(phrases));
    return said;
  });

  /** The same where `phraseLength` has seen one. Only its beginning, on this line, is taken and reported. */
  protected readonly saidPhrase = this.RULE("saidPhrase", (phrases: readonly string[], what?: string): Word => {
    let left = this.ACTION(() => this.phraseLength(phrases)) ?? 0;
    const words: Word[] = [];
    this.AT_LEAST_ONE({ GATE: () => left-- > 0, DEF: () => words.push(word(this.CONSUME(t.Name))) });
    return this.ACTION(() => {
      const text = words.map(said => said.text).join(" ");
      if (!phrases.includes(text)) this.missing(what ?? oneOf(phrases));
      return { start: (words[0] as Word).start, end: (words[words.length - 1] as Word).end, text };
    });
  });

  /** How many of the next words are one of the phrases, or on this line the beginning of one. */
  protected phraseLength(phrases: readonly string[]): number {
    let longest = 0;
    for (const phrase of phrases) {
      const words = phrase.split(" ");
      let count = 0;
      while (count < words.length && this.isWord(this.LA(count + 1), words[count])) count++;
      if (count > longest && (count === words.length || this.isSameLine())) longest = count;
    }
    return longest;
  }

  private isWord(token: IToken, image: string | undefined): boolean {
    return token.image === image && this.isA(token, t.Name);
  }

  /**
   * A number and its unit. A number with a comma and a word that is no unit are taken, too, so that what is wrong with them can be
   * said where it is known what should stand there.
   * @param allowed phrases that may follow the number: none of them is its unit.
   */
  protected readonly quantity = this.RULE("quantity", (allowed?: readonly string[]): Quantity => {
    const value = this.OR1([
      { ALT: () => word(this.CONSUME(t.Digits)) },
      { ALT: () => word(this.CONSUME(t.Decimal)) },
      { ALT: () => word(this.CONSUME(t.FacilityNumber)) },
    ]);
    const unit = this.OPTION({
      GATE: () => this.isUnit(allowed ?? []),
      DEF: () => this.OR2([{ ALT: () => word(this.CONSUME(t.Name)) }, { ALT: () => word(this.CONSUME(t.Percent)) }]),
    });
    this.ACTION(() => {
      if (unit !== undefined && !(t.units as readonly string[]).includes(unit.text)) this.unknownUnits.add(unit.start);
    });
    return { start: value.start, end: (unit ?? value).end, value, unit };
  });

  private isUnit(allowed: readonly string[]): boolean {
    if (!this.isSameLine()) return false;
    const { image, tokenType } = this.LA(1);
    if ((t.units as readonly string[]).includes(image)) return true;
    return (tokenType === t.Word || tokenType === t.Capital || tokenType === t.ForeignWord) && this.phraseLength(allowed) === 0;
  }

  /** A number that a quantity begins with. */
  protected isNumber(): boolean {
    return this.isNext(t.Digits) || this.isNext(t.FacilityNumber) || this.isA(this.LA(1), t.Decimal);
  }
}

/** "`a`, `b` or `c`" */
export function oneOf(words: readonly string[]): string {
  const quoted = words.map(said => `\`${said}\``);
  return quoted.length < 2 ? quoted.join("") : `${quoted.slice(0, -1).join(", ")} or ${quoted[quoted.length - 1]}`;
}

export function word(token: IToken): Word {
  return { start: token.startOffset, end: token.startOffset + token.image.length, text: token.image };
}

export function str(token: IToken): Str {
  return { start: token.startOffset, end: token.startOffset + token.image.length, text: t.textOf(token) };
}

export function span(token: IToken): Span {
  return { start: token.startOffset, end: token.startOffset + token.image.length };
}
