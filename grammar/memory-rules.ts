/** Rules for what a model says of its memory and its manners: keys, relays, slots, lengths, times, settings. */
import { span, word } from "./pieces.ts";
import { keysWanted, TemplateRules } from "./template-rules.ts";
import * as t from "./tokens.ts";
import type { Element, KeyListItem, Lengths, ModelFact, RelayKeys, SlotRange, SlotsForm, Span, Str, Word } from "./tree.ts";

/** Words that begin a fact or an operation of a model. */
export const modelFactWords = [
  "keys",
  "relays",
  "slots",
  "codes",
  "length",
  "rewrite",
  "twins",
  "relength",
  "release",
  "settle",
  "lapse",
  "lockout",
  "refused",
  "cancel",
  "reset",
  "setting",
  "tags",
  "session",
  "listens",
  "acts",
  "draws",
  "contact",
  "note",
  "factory",
  "enter",
  "leave",
  "put",
  "clear",
  "set",
  "open",
] as const;

/** The facts of a model that are one of a few fixed phrases. */
export const ruleWords = {
  length: ["follows installer code", "set by entry", "free"],
  rewrite: ["replaces", "refused"],
  twins: ["refused", "first fires", "all fire"],
  relength: ["clears", "keeps what was stored"],
  session: ["one entry"],
  listens: ["from the first key", "to the last keys"],
  acts: ["at once", "after a pause"],
} as const;

const keptFor: readonly string[] = ["codes", "tags"];
const slotPhrases = ["per relay", "shared", "unnumbered", "one per relay", "holds code or tag", "holds code with tag"] as const;

export class MemoryRules extends TemplateRules {
  protected readonly keys = this.RULE("keys", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("keys")));
    const keys: KeyListItem[] = [];
    this.MANY(() => {
      const from = this.OR([
        { ALT: () => word(this.CONSUME1(t.Digits)) },
        { ALT: () => word(this.CONSUME(t.Capital)) },
        { ALT: () => word(this.CONSUME(t.Star)) },
        { ALT: () => word(this.CONSUME(t.Hash)) },
      ]);
      let to: Word | undefined;
      this.OPTION(() => {
        this.CONSUME(t.Range);
        to = this.SUBRULE(this.number, { ARGS: ["the last digit key"] });
      });
      keys.push({ start: from.start, end: (to ?? from).end, from, to });
    });
    if (keys.length === 0) this.missing("keys (`0..9`, `*`, `#`, a word in capitals)");
    return this.ACTION(() => ({ kind: "keys", start: keyword.start, end: t.endOf(this.LA(0)), keyword, keys }));
  });

  protected readonly relays = this.RULE("relays", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("relays")));
    const relays: RelayKeys[] = [];
    this.MANY({
      GATE: () => relays.length === 0 || this.isNext(t.Digits),
      DEF: () => relays.push(this.SUBRULE(this.relayKeys)),
    });
    if (relays.length === 0) this.missing("a relay and what is typed for it, like `1 = 4`");
    return this.ACTION(() => ({ kind: "relays", start: keyword.start, end: t.endOf(this.LA(0)), keyword, relays }));
  });

  protected readonly relayKeys = this.RULE("relayKeys", (): RelayKeys => {
    const start = this.LA(1).startOffset;
    const numbers: Word[] = [word(this.CONSUME1(t.Digits))];
    this.MANY1(() => {
      this.CONSUME(t.Plus);
      const more = this.SUBRULE(this.number, { ARGS: ["a relay's number"] });
      if (more !== undefined) numbers.push(more);
    });
    const equals = this.OPTION1(() => this.CONSUME(t.Equals));
    if (equals === undefined) this.missing("`=` and what is typed for the relay");
    const keys: Element[] = [];
    this.MANY2({
      GATE: () =>
        equals !== undefined && !(keys.length > 0 && this.isNext(t.Digits) && (this.isAfterNext(t.Equals) || this.isAfterNext(t.Plus))),
      DEF: () => keys.push(this.SUBRULE(this.keyElement)),
    });
    if (equals !== undefined && keys.length === 0) this.missing("what is typed for the relay");
    const end = this.ACTION(() => t.endOf(this.LA(0)));
    const comma = this.OPTION2(() => this.CONSUME(t.Comma));
    if (comma === undefined && this.isNext(t.Digits)) this.missing("`,` between relays");
    else if (comma !== undefined && !this.isNext(t.Digits)) this.missing("one more relay");
    return { start, end, numbers, keys };
  });

  protected readonly slots = this.RULE("slots", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("slots")));
    const ranges: SlotRange[] = [];
    let count: Word | undefined;
    let addressing: Word | undefined;
    let holds: Word | undefined;
    const said = new Map<string, Word>();
    this.MANY({
      GATE: () => this.isSlotWord(),
      DEF: () =>
        this.OR([
          {
            ALT: () => {
              const range = this.SUBRULE(this.slotRange);
              if ("to" in range) ranges.push(range);
              else {
                this.ACTION(() => this.once(said, "a number of places", range));
                count ??= range;
              }
            },
          },
          {
            ALT: () => {
              const phrase = this.SUBRULE(this.saidPhrase, { ARGS: [slotPhrases, "the rest of it"] });
              const isHolds = phrase?.text?.startsWith("holds");
              this.ACTION(() => phrase && this.once(said, isHolds ? "what a slot holds" : "how slots are numbered", phrase));
              if (isHolds) holds ??= phrase;
              else addressing ??= phrase;
            },
          },
          {
            ALT: () => {
              this.CONSUME(t.Comma);
              this.ACTION(() => {
                if (!this.isNext(t.Digits)) this.missing("one more range");
              });
            },
          },
        ]),
    });
    return this.ACTION(() => {
      const end = t.endOf(this.LA(0));
      this.checkSlots(addressing, ranges, count);
      const form: SlotsForm = {
        start: Math.min(end, ...[ranges[0], count, addressing, holds].flatMap(part => part?.start ?? [])),
        end,
        addressing: addressing?.text as SlotsForm["addressing"],
        ranges,
        count,
        holds: holds?.text.slice("holds ".length) as SlotsForm["holds"],
      };
      return { kind: "slots", start: keyword.start, end, keyword, form };
    });
  });

  private isSlotWord(): boolean {
    const type = this.LA(1).tokenType;
    return type === t.Digits || type === t.Comma || (!this.isNextFact() && this.phraseLength(slotPhrases) > 0);
  }

  private checkSlots(addressing: Word | undefined, ranges: readonly SlotRange[], count: Word | undefined): void {
    if (addressing === undefined) this.missing("`per relay`, `shared`, `unnumbered` or `one per relay`");
    else if (addressing.text === "unnumbered" && count === undefined) this.missing("a number of places before `unnumbered`");
    else if ((addressing.text === "shared" || addressing.text === "per relay") && ranges.length === 0)
      this.missing(`a range like \`00..59\` before \`${addressing.text}\``);
    else if (addressing.text !== "unnumbered" && count !== undefined)
      this.report(count.start, count.end, `expected no number of places before \`${addressing.text}\`, found one`);
    else if (ranges[0] !== undefined && addressing.text !== "shared" && addressing.text !== "per relay")
      this.report(ranges[0].start, ranges[0].end, `expected no range of slots before \`${addressing.text}\`, found one`);
  }

  /** A range, or the one number of places of an unnumbered memory. */
  protected readonly slotRange = this.RULE("slotRange", (): SlotRange | Word => {
    const from = word(this.CONSUME(t.Digits));
    let to: Word | undefined;
    const range = this.OPTION1(() => this.CONSUME(t.Range));
    this.OPTION2({ GATE: () => range !== undefined, DEF: () => (to = this.SUBRULE(this.number, { ARGS: ["the last slot"] })) });
    const kept = this.OPTION3({
      GATE: () => range !== undefined && !this.isNextFact() && this.phraseLength(keptFor) > 0,
      DEF: () => this.SUBRULE(this.saidPhrase, { ARGS: [keptFor] }),
    });
    const all = this.OPTION4({ GATE: () => range !== undefined, DEF: () => word(this.CONSUME(t.inside("all-relay"))) });
    if (range !== undefined && to === undefined) this.missing("the last slot");
    if (to === undefined) return from;
    const end = (all ?? kept ?? to).end;
    return { start: from.start, end, from, to, kept: (kept ?? all)?.text as SlotRange["kept"] };
  });

  /** The next line begins a fact of its own. */
  private isNextFact(): boolean {
    const next = this.LA(1);
    return (modelFactWords as readonly string[]).includes(next.image) && !(this.isSameLine() && keptFor.includes(next.image));
  }

  protected readonly codes = this.RULE("codes", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("codes")));
    const lengths = this.OPTION1(() => this.SUBRULE1(this.lengths));
    let installer: Lengths | undefined;
    if (lengths === undefined) this.missing("a number of digits");
    this.OPTION2(() => {
      this.CONSUME(t.inside("installer"));
      installer = this.OPTION3(() => this.SUBRULE2(this.lengths));
      if (installer === undefined) this.missing("a number of digits");
    });
    return this.ACTION(() => ({ kind: "codes", start: keyword.start, end: t.endOf(this.LA(0)), keyword, lengths, installer }));
  });

  protected readonly lengths = this.RULE("lengths", (): Lengths => {
    const first = word(this.CONSUME(t.Digits));
    const either: Word[] = [first];
    let to: Word | undefined;
    const range = this.OPTION1(() => this.CONSUME(t.Range));
    this.OPTION2({
      GATE: () => range !== undefined,
      DEF: () => (to = this.SUBRULE1(this.number, { ARGS: ["the greatest number of digits"] })),
    });
    this.MANY(() => {
      this.CONSUME(t.Bar);
      const more = this.SUBRULE2(this.number, { ARGS: ["a number of digits"] });
      if (more !== undefined) either.push(more);
    });
    const isAlone = range === undefined && either.length === 1;
    this.SUBRULE(this.phrase, { ARGS: [["digits", "digit"], isAlone ? "`digits`, or `|` or `..` and another number," : "`digits`"] });
    return this.ACTION(() => {
      const end = t.endOf(this.LA(0));
      if (range === undefined) return { start: first.start, end, either };
      if (to === undefined) this.missing("the greatest number of digits");
      return { start: first.start, end, from: first, to };
    });
  });

  /** `rewrite replaces`, `twins refused` and the like. */
  protected readonly fixedRule = this.RULE("fixedRule", (): ModelFact => {
    const keyword = this.OR([
      { ALT: () => word(this.CONSUME(t.keyword("length"))) },
      { ALT: () => word(this.CONSUME(t.keyword("rewrite"))) },
      { ALT: () => word(this.CONSUME(t.keyword("twins"))) },
      { ALT: () => word(this.CONSUME(t.keyword("relength"))) },
      { ALT: () => word(this.CONSUME(t.keyword("session"))) },
      { ALT: () => word(this.CONSUME(t.keyword("listens"))) },
      { ALT: () => word(this.CONSUME(t.keyword("acts"))) },
    ]);
    const phrases = this.ACTION(() => {
      const all: readonly string[] = ruleWords[keyword.text as keyof typeof ruleWords];
      // `refused shows …` on the next line is a fact of its own.
      return this.LA(1).image === "refused" && this.LA(2).image === "shows" ? all.filter(phrase => phrase !== "refused") : all;
    });
    const said = this.SUBRULE(this.phrase, { ARGS: [phrases] });
    const known = this.ACTION(() => (phrases.includes(said?.text ?? "") ? said?.text : undefined));
    return this.ACTION(() => ({ kind: keyword.text, start: keyword.start, end: (said ?? keyword).end, keyword, rule: known }) as ModelFact);
  });

  protected readonly releaseRange = this.RULE("releaseRange", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("release")));
    let from: Word | undefined;
    let to: Word | undefined;
    let toggle: Word | undefined;
    this.OPTION1(() => {
      from = word(this.CONSUME(t.Digits));
      this.OPTION2({ GATE: () => this.LA(1).image === "s" && this.isSameLine(), DEF: () => this.CONSUME1(t.Name) });
      const range = this.OPTION3(() => this.CONSUME(t.Range));
      this.OPTION4({ GATE: () => range !== undefined, DEF: () => (to = this.SUBRULE(this.time)) });
    });
    const comma = this.OPTION5(() => this.CONSUME(t.Comma));
    this.OPTION6(() => {
      this.CONSUME(t.keyword("toggle"));
      const equals = this.OPTION7(() => this.CONSUME(t.Equals));
      if (equals === undefined) this.missing("`=` and what is typed for `toggle`");
      toggle = this.SUBRULE(this.number, { ARGS: ["what is typed for `toggle`"] });
    });
    if (comma !== undefined && toggle === undefined) this.missing("`toggle = ` and what is typed for it");
    if (from === undefined && toggle === undefined) this.missing("a range of seconds, like `1s..99s`");
    return this.ACTION(() => ({
      kind: "release-range",
      start: keyword.start,
      end: t.endOf(this.LA(0)),
      keyword,
      from,
      to: to ?? from,
      toggle,
    }));
  });

  protected readonly waiting = this.RULE("waiting", (): ModelFact => {
    const keyword = this.OR([
      { ALT: () => word(this.CONSUME(t.keyword("settle"))) },
      { ALT: () => word(this.CONSUME(t.keyword("lapse"))) },
    ]);
    const seconds = this.SUBRULE(this.time);
    const kind = keyword.text as "settle" | "lapse";
    return this.ACTION(() => ({ kind, start: keyword.start, end: t.endOf(this.LA(0)), keyword, seconds }));
  });

  protected readonly lockout = this.RULE("lockout", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("lockout")));
    let none: Span | undefined;
    let tries: Word | undefined;
    let seconds: Word | undefined;
    this.OPTION1(() => {
      tries = word(this.CONSUME(t.Digits));
      this.SUBRULE1(this.phrase, { ARGS: [["tries", "try"], "`tries`"] });
      seconds = this.SUBRULE(this.time);
    });
    this.OPTION2({
      GATE: () => tries === undefined && this.LA(1).image === "none",
      DEF: () => (none = span(this.CONSUME(t.Name))),
    });
    if (tries === undefined && none === undefined) this.missing("a number of tries and seconds, or `none`");
    return this.ACTION(() => ({ kind: "lockout", start: keyword.start, end: t.endOf(this.LA(0)), keyword, none, tries, seconds }));
  });

  protected readonly refused = this.RULE("refused", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("refused")));
    const shows = this.OPTION(() => this.SUBRULE(this.shows));
    if (shows === undefined) this.missing("`shows` and what is seen");
    return this.ACTION(() => ({ kind: "refused", start: keyword.start, end: t.endOf(this.LA(0)), keyword, shows }));
  });

  protected readonly shows = this.RULE("shows", (): Str | undefined => {
    this.CONSUME(t.keyword("shows"));
    return this.SUBRULE(this.quoted, { ARGS: ["what is seen, in quotes"] });
  });

  protected readonly cancel = this.RULE("cancel", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("cancel")));
    const template = this.SUBRULE(this.template);
    if (template?.length === 0) this.missing(keysWanted);
    return this.ACTION(() => ({ kind: "cancel", start: keyword.start, end: t.endOf(this.LA(0)), keyword, template }));
  });

  protected readonly resetByHand = this.RULE("resetByHand", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("reset")));
    const installer = this.OPTION1(() => this.CONSUME(t.inside("installer")));
    const phrases = installer === undefined ? ["wipes everything"] : ["code"];
    const said = this.SUBRULE(this.phrase, {
      ARGS: [phrases, installer === undefined ? "`wipes everything` or `installer code`" : "`code`"],
    });
    const text = this.SUBRULE(this.quoted, { ARGS: ["how it is done, in quotes"] });
    const what = said === undefined ? undefined : installer === undefined ? "everything" : "installer code";
    return this.ACTION(() => ({ kind: "reset", start: keyword.start, end: t.endOf(this.LA(0)), keyword, what, text }));
  });

  protected readonly settingDef = this.RULE("settingDef", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("setting")));
    const label = this.SUBRULE(this.quoted, { ARGS: ["the setting's name in quotes"] });
    let from: Word | undefined;
    let to: Word | undefined;
    this.OPTION1(() => {
      from = word(this.CONSUME(t.Digits));
      const range = this.OPTION2(() => this.CONSUME(t.Range));
      if (range === undefined) this.missing("`..` and the greatest value");
      this.OPTION3({ GATE: () => range !== undefined, DEF: () => (to = this.SUBRULE1(this.number, { ARGS: ["the greatest value"] })) });
    });
    if (from === undefined) this.missing("a range like `0..2`");
    let factory: Word | undefined;
    this.OPTION4({
      GATE: () => !this.isAfterNext(t.Open),
      DEF: () => {
        this.CONSUME(t.keyword("factory"));
        factory = this.SUBRULE2(this.number, { ARGS: ["the value when new"] });
      },
    });
    const template = this.SUBRULE(this.template);
    if (template?.length === 0) this.missing(keysWanted);
    const shows = this.OPTION5(() => this.SUBRULE(this.shows));
    return this.ACTION(() => {
      const end = t.endOf(this.LA(0));
      return { kind: "setting-def", start: keyword.start, end, keyword, label, from, to, factory, template, shows };
    });
  });

  protected readonly tags = this.RULE("tags", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("tags")));
    const bits = this.SUBRULE(this.number, { ARGS: ["a number of bits"] });
    this.OPTION({ GATE: () => bits !== undefined, DEF: () => this.SUBRULE(this.phrase, { ARGS: [["bits"]] }) });
    return this.ACTION(() => ({ kind: "tags", start: keyword.start, end: t.endOf(this.LA(0)), keyword, bits }));
  });

  /* Electrics */

  protected readonly draws = this.RULE("draws", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("draws")));
    const amount = this.OPTION(() => this.SUBRULE(this.quantity));
    if (amount === undefined) this.missing("a current like `60 mA`");
    return { kind: "draws", start: keyword.start, end: (amount ?? keyword).end, keyword, amount };
  });

  protected readonly contactRating = this.RULE("contactRating", (): ModelFact => {
    const keyword = word(this.CONSUME(t.keyword("contact")));
    const current = this.OPTION1(() => this.SUBRULE1(this.quantity));
    const voltage = this.OPTION2(() => this.SUBRULE2(this.quantity));
    if (current === undefined || voltage === undefined) this.missing("a current and a voltage like `2 A 30 V`");
    return { kind: "contact-rating", start: keyword.start, end: (voltage ?? current ?? keyword).end, keyword, current, voltage };
  });
}
