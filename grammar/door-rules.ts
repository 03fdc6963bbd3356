/** Rules for `door` and `supply`: the lock behind the relay and what feeds it. */
import { ModelRules } from "./model-rules.ts";
import { oneOf, str, word } from "./pieces.ts";
import * as t from "./tokens.ts";
import type { DoorDecl, DoorFact, Quantity, Span, Str, SupplyDecl, SupplyFact, Word } from "./tree.ts";

/** The fixed words of each fact of a door, after the word that begins it. */
export const doorWords = {
  lock: [
    "strike",
    "magnet",
    "bolt",
    "motor lock",
    "start contact",
    "fail-safe",
    "fail-secure",
    "stays",
    "AC",
    "DC",
    "inrush",
    "resistive",
    "within",
  ],
  contact: ["closes to open", "opens to open"],
  cable: ["class", "at"],
  exit: ["bar", "lever", "button", "none"],
  route: ["escape", "fire door", "none"],
  release: ["on alarm"],
  near: ["people"],
} as const;
export const supplyWords = { supply: ["AC", "DC"], battery: ["for", "down to"] } as const;

/** What a word asks for behind it. */
const before: Readonly<Record<string, string>> = {
  within: "a part of the voltage like `15 %`",
  class: "`1`, `2` or `5`",
  at: "a temperature like `40 C`",
  for: "a time like `4 h`",
  "down to": "a voltage like `10.8 V`",
};

/** Words of which a fact has one. */
const exclusive: readonly (readonly string[])[] = [
  ["strike", "magnet", "bolt", "motor lock", "start contact"],
  ["fail-safe", "fail-secure", "stays"],
  ["AC", "DC"],
  doorWords.contact,
  doorWords.exit,
  doorWords.route,
];

/** The words of a fact that may still be said when some have been. */
export function stillAllowed(allowed: readonly string[], said: readonly string[]): readonly string[] {
  const text = ` ${said.join(" ")} `;
  const isSaid = (word: string) => text.includes(` ${word} `);
  return allowed.filter(word => {
    const group = exclusive.find(one => one.includes(word) && one.every(other => allowed.includes(other))) ?? [word];
    return !group.some(isSaid);
  });
}

const doorFacts = {
  what: "a fact of the door (`lock`, `contact`, `cable`, `exit`, `route`, `release on alarm`, `near people`, `note`) or `}`",
  words: ["lock", "contact", "cable", "exit", "route", "release", "near", "note"],
};
const supplyFacts = { what: "`battery`, `feeds`, a note or `}`", words: ["battery", "feeds", "note"] };
const needed: Readonly<Record<string, string>> = {
  lock: "a kind of lock (`strike`, `magnet`, `bolt`, `motor lock` or `start contact`)",
  contact: "`closes to open` or `opens to open`",
  cable: "a length and a cross-section",
  exit: "`bar`, `lever`, `button` or `none`",
  route: "`escape`, `fire door` or `none`",
  release: "`on alarm`",
  near: "`people`",
};

export class DoorRules extends ModelRules {
  protected readonly door = this.RULE("door", (): DoorDecl => {
    const token = this.CONSUME(t.keyword("door"));
    const keyword = word(token);
    const label = this.SUBRULE(this.quoted, { ARGS: ["the door's label in quotes"] });
    this.SUBRULE(this.headJunk, { ARGS: ["`{`"] });
    const indent = this.ACTION(() => this.indentOf(token));
    const facts: DoorFact[] = [];
    const seen = new Map<string, Span>();
    const open = this.OPTION1(() => this.CONSUME(t.Open));
    if (open === undefined) this.missing("`{`");
    this.MANY({
      GATE: () => (open !== undefined || facts.length > 0 || doorFacts.words.includes(this.LA(1).image)) && this.goesOn(indent),
      DEF: () =>
        this.OR([
          {
            ALT: () => {
              const known = this.problems.length;
              const fact = this.SUBRULE(this.doorFact);
              facts.push(fact);
              this.SUBRULE(this.restOfLine, { ARGS: [fact, known] });
              this.ACTION(() => this.once(seen, `\`${fact.keyword.text}\``, fact.keyword));
            },
          },
          { ALT: () => facts.push(this.SUBRULE(this.doorNote)) },
          { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [doorFacts] }) },
        ]),
    });
    const close = this.OPTION2({ GATE: () => open !== undefined || facts.length > 0, DEF: () => this.CONSUME(t.Close) });
    return this.ACTION(() => {
      const body = this.blockOf(open, close, "door");
      return { kind: "door", start: keyword.start, end: t.endOf(this.LA(0)), keyword, label, facts, body };
    });
  });

  protected readonly doorFact = this.RULE("doorFact", (): DoorFact => {
    const keyword = this.OR1([
      { ALT: () => word(this.CONSUME(t.keyword("lock"))) },
      { ALT: () => word(this.CONSUME(t.keyword("contact"))) },
      { ALT: () => word(this.CONSUME(t.keyword("cable"))) },
      { ALT: () => word(this.CONSUME(t.keyword("exit"))) },
      { ALT: () => word(this.CONSUME(t.keyword("route"))) },
      { ALT: () => word(this.CONSUME(t.keyword("release"))) },
      { ALT: () => word(this.CONSUME(t.keyword("near"))) },
    ]);
    const allowed = this.ACTION((): readonly string[] => doorWords[keyword.text as keyof typeof doorWords]) ?? [];
    const words: Word[] = [];
    const quantities: Quantity[] = [];
    this.SUBRULE(this.wordsAndQuantities, { ARGS: [allowed, words, quantities] });
    return this.ACTION(() => {
      if (words.length === 0 && quantities.length === 0) this.missing(needed[keyword.text] ?? "more");
      const kind =
        keyword.text === "release" ? "release-on-alarm" : keyword.text === "near" ? "near-people" : (keyword.text as DoorFact["kind"]);
      return { kind, start: keyword.start, end: t.endOf(this.LA(0)), keyword, words, quantities, text: undefined };
    });
  });

  protected readonly doorNote = this.RULE("doorNote", (): DoorFact => {
    const note = this.SUBRULE(this.note);
    return { kind: "note", start: note.start, end: note.end, keyword: note.keyword, words: [], quantities: [], text: note.text };
  });

  /** The rest of a fact: fixed words and quantities, in any order. */
  protected readonly wordsAndQuantities = this.RULE(
    "wordsAndQuantities",
    (allowed: readonly string[], words: Word[], quantities: Quantity[]): void => {
      this.MANY({
        GATE: () => this.isNumber() || this.phraseLength(allowed) > 0,
        DEF: () =>
          this.OR([
            {
              ALT: () => {
                const quantity = this.SUBRULE(this.quantity, { ARGS: [allowed] });
                this.ACTION(() => quantities.push(quantity));
              },
            },
            {
              ALT: () => {
                const said = this.SUBRULE(this.saidPhrase, { ARGS: [allowed] });
                this.ACTION(() => {
                  words.push(said);
                  const number = before[said.text];
                  if (number !== undefined && !this.isNumber()) this.missing(number);
                });
              },
            },
          ]),
      });
      this.ACTION(() => this.oneOfEach(words, allowed));
    },
  );

  /** Of words that exclude each other the first one counts, and none is said twice. */
  private oneOfEach(words: readonly Word[], allowed: readonly string[]): void {
    for (const [index, said] of words.entries()) {
      const group = exclusive.find(one => one.includes(said.text) && one.every(other => allowed.includes(other))) ?? [said.text];
      const before = words.slice(0, index).find(other => group.includes(other.text));
      if (before === undefined) continue;
      if (before.text === said.text) this.twice(`\`${said.text}\``, before, said);
      else
        this.report(said.start, said.end, `expected one of ${oneOf(group)}, found a second one`, [
          { start: before.start, end: before.end, message: `\`${before.text}\` is said here` },
        ]);
    }
  }

  /* Supplies */

  protected readonly supply = this.RULE("supply", (): SupplyDecl => {
    const token = this.CONSUME(t.keyword("supply"));
    const keyword = word(token);
    const name = this.SUBRULE(this.named, { ARGS: ["the supply's name"] });
    const label = this.SUBRULE(this.quoted, { ARGS: ["the supply's label in quotes"] });
    const words: Word[] = [];
    const quantities: Quantity[] = [];
    this.SUBRULE1(this.wordsAndQuantities, { ARGS: [supplyWords.supply, words, quantities] });
    if (quantities.length === 0) this.missing("a voltage and a current");
    this.SUBRULE(this.headJunk, { ARGS: ["`{`"] });
    const indent = this.ACTION(() => this.indentOf(token));
    const facts: SupplyFact[] = [];
    const seen = new Map<string, Span>();
    const open = this.OPTION1(() => this.CONSUME(t.Open));
    this.MANY({
      GATE: () => (open !== undefined || this.isSupplyFact()) && this.goesOn(indent),
      DEF: () =>
        this.OR([
          {
            ALT: () => {
              const known = this.problems.length;
              const fact = this.SUBRULE(this.supplyFact);
              facts.push(fact);
              this.SUBRULE(this.restOfLine, { ARGS: [fact, known] });
              this.ACTION(() => fact.kind !== "note" && this.once(seen, `\`${fact.keyword.text}\``, fact.keyword));
            },
          },
          { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [supplyFacts] }) },
        ]),
    });
    const close = this.OPTION2({ GATE: () => open !== undefined || facts.length > 0, DEF: () => this.CONSUME(t.Close) });
    return this.ACTION(() => {
      const body = this.blockOf(open, close, "supply");
      return { kind: "supply", start: keyword.start, end: t.endOf(this.LA(0)), keyword, name, label, words, quantities, facts, body };
    });
  });

  private isSupplyFact(): boolean {
    const type = this.LA(1).tokenType;
    if (type !== t.keyword("battery") && type !== t.keyword("feeds")) return false;
    this.missing("`{`");
    return true;
  }

  protected readonly supplyFact = this.RULE("supplyFact", (): SupplyFact => {
    return this.OR([
      { ALT: () => this.SUBRULE(this.battery) },
      { ALT: () => this.SUBRULE(this.feeds) },
      {
        ALT: (): SupplyFact => {
          const note = this.SUBRULE(this.note);
          return {
            kind: "note",
            start: note.start,
            end: note.end,
            keyword: note.keyword,
            words: [],
            quantities: [],
            feeds: [],
            text: note.text,
          };
        },
      },
    ]);
  });

  protected readonly battery = this.RULE("battery", (): SupplyFact => {
    const keyword = word(this.CONSUME(t.keyword("battery")));
    const words: Word[] = [];
    const quantities: Quantity[] = [];
    this.SUBRULE(this.wordsAndQuantities, { ARGS: [supplyWords.battery, words, quantities] });
    if (quantities.length === 0) this.missing("a voltage and a capacity, like `12 V 7 Ah`");
    return this.ACTION(() => ({
      kind: "battery",
      start: keyword.start,
      end: t.endOf(this.LA(0)),
      keyword,
      words,
      quantities,
      feeds: [],
      text: undefined,
    }));
  });

  protected readonly feeds = this.RULE("feeds", (): SupplyFact => {
    const keyword = word(this.CONSUME(t.keyword("feeds")));
    const feeds: ({ readonly door: Str } | { readonly keypad: Word })[] = [];
    this.MANY(() => {
      this.OR([
        {
          ALT: () => {
            const door = str(this.CONSUME(t.Text));
            feeds.push({ door });
          },
        },
        {
          ALT: () => {
            this.CONSUME(t.inside("keypad"));
            const keypad = this.SUBRULE(this.named, { ARGS: ["the name of a keypad"] });
            if (keypad !== undefined) feeds.push({ keypad });
          },
        },
      ]);
      const comma = this.OPTION(() => this.CONSUME(t.Comma));
      const more = this.ACTION(() => this.isA(this.LA(1), t.Text) || this.isNext(t.inside("keypad")));
      if (comma === undefined && more) this.missing("`,`");
      else if (comma !== undefined && !more) this.missing("a door's label in quotes, or `keypad` and its name");
    });
    if (feeds.length === 0) this.missing("a door's label in quotes, or `keypad` and its name");
    return this.ACTION(() => ({
      kind: "feeds",
      start: keyword.start,
      end: t.endOf(this.LA(0)),
      keyword,
      words: [],
      quantities: [],
      feeds,
      text: undefined,
    }));
  });
}
