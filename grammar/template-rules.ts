/** Rules for the keys of an operation: `7 {relay} {slot} {code} OK`, `[present tag]`. */
import { FittedRules } from "./fitted-rules.ts";
import { word } from "./pieces.ts";
import type { Expectation } from "./reader.ts";
import * as t from "./tokens.ts";
import type { Element, Word } from "./tree.ts";

export class TemplateRules extends FittedRules {
  /** Ends at the first word in small letters, so it never takes the next line. */
  protected readonly template = this.RULE("template", (): Element[] => {
    const elements: Element[] = [];
    this.MANY(() => {
      const element = this.SUBRULE(this.element);
      if (element !== undefined) elements.push(element);
    });
    return elements;
  });

  protected readonly element = this.RULE("element", (): Element | undefined =>
    this.OR([
      { ALT: () => this.SUBRULE(this.keyElement) },
      { ALT: () => this.SUBRULE(this.fieldElement) },
      { ALT: () => this.SUBRULE(this.handElement) },
    ]),
  );

  protected readonly keyElement = this.RULE("keyElement", (): Element => {
    const token = this.OR([
      { ALT: () => word(this.CONSUME(t.Digits)) },
      { ALT: () => word(this.CONSUME(t.Capital)) },
      { ALT: () => word(this.CONSUME(t.Star)) },
      { ALT: () => word(this.CONSUME(t.Hash)) },
    ]);
    return { kind: "keys", start: token.start, end: token.end, text: token.text };
  });

  protected readonly fieldElement = this.RULE("fieldElement", (): Element | undefined => {
    const open = this.CONSUME(t.Open);
    const name = this.OPTION1({ GATE: () => this.isInField(), DEF: () => word(this.CONSUME(t.Name)) });
    if (name === undefined) this.missing("the name of a field");
    let width: Word[] | undefined;
    this.OPTION2({
      GATE: () => this.isSameLine(),
      DEF: () => {
        this.CONSUME(t.Colon);
        width = [];
        const digits = this.SUBRULE1(this.number, { ARGS: ["a width"] });
        if (digits !== undefined) width.push(digits);
        this.OPTION3(() => {
          this.CONSUME(t.Plus);
          const more = this.SUBRULE2(this.number, { ARGS: ["a width"] });
          if (more !== undefined) width?.push(more);
        });
      },
    });
    const close = this.OPTION4({ GATE: () => this.isInField(), DEF: () => this.CONSUME(t.Close) });
    if (close === undefined) this.missing("`}` to end the field");
    return this.ACTION(() => {
      if (name === undefined) return undefined;
      return { kind: "field", start: open.startOffset, end: t.endOf(this.LA(0)), name, width };
    });
  });

  /** A field stays on its line, so that a half-typed one does not take the next line's first word. */
  private isInField(): boolean {
    return this.isSameLine() || this.isAfterNext(t.Close) || this.isAfterNext(t.Colon);
  }

  protected readonly handElement = this.RULE("handElement", (): Element => {
    const token = this.CONSUME(t.Hand);
    const inner = token.image.replace(/^\[|\]$/g, "");
    return { kind: "hand", start: token.startOffset, end: t.endOf(token), text: inner.trim().replace(/\s+/g, " ") };
  });

  /** Keys as a person writes them outside a model. */
  readonly keysText = this.RULE("keysText", (): Element[] => {
    const elements: Element[] = [];
    this.MANY(() =>
      this.OR([
        {
          ALT: () => {
            const element = this.SUBRULE(this.element);
            if (element !== undefined) elements.push(element);
          },
        },
        { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [keysExpected] }) },
      ]),
    );
    return elements;
  });
}

/** What an operation's keys may be. */
export const keysWanted = "keys (digits, `*`, `#`, a word in capitals, a field in `{…}`, an action in `[…]`)";
const keysExpected: Expectation = { what: keysWanted, words: [], keys: true };
