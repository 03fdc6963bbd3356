/** Rules for `keypad` and what stands in it: facts, relays, entries. */
import { span, str, word } from "./pieces.ts";
import type { Expectation } from "./reader.ts";
import { SiteRules } from "./site-rules.ts";
import * as t from "./tokens.ts";
import type {
  AllRelayFact,
  CodeLengthFact,
  Entry,
  FittedFact,
  FittedRelay,
  Held,
  InstallerFact,
  KeypadDecl,
  KeypadFact,
  Pair,
  RelayDecl,
  Release,
  SettingFact,
  Span,
  Word,
} from "./tree.ts";

export const keypadFacts: Expectation = {
  places: true,
  what: "a relay, an installer or all-relay code, a code length, a setting or a note",
  words: ["relay", "installer", "all-relay", "code", "setting", "note"],
};
const entries = { what: "an entry (a slot and a holder) or `}`", words: [] };

/** Slots have few digits; a longer number may be a code, and is not repeated. */
export function spokenSlot(slot: Word | undefined): string {
  return slot !== undefined && slot.text.length <= 3 ? `slot ${slot.text}` : "the slot's number";
}

type StoredFact = Exclude<KeypadFact | FittedFact, RelayDecl | FittedRelay>;

/** What may be said once. Notes may be repeated. */
function singleOf(fact: StoredFact): string | undefined {
  switch (fact.kind) {
    case "installer":
      return "the installer code";
    case "all-relay":
      return fact.number === undefined ? "the all-relay code" : "the all-relay code of one number";
    case "code-length":
      return "the code length";
    case "setting":
      return fact.label && "a setting of one name";
    case "model-ref":
      return "the model";
    default:
      return undefined;
  }
}

export class KeypadRules extends SiteRules {
  protected readonly keypad = this.RULE("keypad", (): KeypadDecl => {
    const token = this.CONSUME(t.keyword("keypad"));
    const keyword = word(token);
    const name = this.SUBRULE(this.named, { ARGS: ["the keypad's name"] });
    const label = this.SUBRULE(this.quoted, { ARGS: ["the keypad's label in quotes"] });
    const colon = this.OPTION1(() => this.CONSUME(t.Colon));
    if (colon === undefined) this.missing("`:` and a model");
    const model = this.OPTION2({
      GATE: () => colon !== undefined || this.isSameLine(),
      DEF: () => this.SUBRULE1(this.named, { ARGS: ["the name of a model"] }),
    });
    this.SUBRULE(this.headJunk, { ARGS: ["`{`"] });
    const indent = this.ACTION(() => this.indentOf(token));
    const facts: KeypadFact[] = [];
    const seen = new Map<string, Span>();
    const open = this.OPTION3(() => this.CONSUME(t.Open));
    if (open === undefined) this.missing("`{`");
    this.MANY({
      GATE: () => (open !== undefined || this.isStoredFact()) && this.goesOn(indent),
      DEF: () =>
        this.OR([
          { ALT: () => facts.push(this.SUBRULE(this.relay)) },
          {
            GATE: () => !this.isLostCode(),
            ALT: () => {
              const known = this.problems.length;
              const fact = this.SUBRULE(this.storedFact, { ARGS: [false] });
              facts.push(fact);
              this.SUBRULE(this.restOfLine, { ARGS: [fact, known] });
              this.ACTION(() => this.onceStored(seen, fact));
            },
          },
          { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [keypadFacts] }) },
        ]),
    });
    const close = this.OPTION4({ GATE: () => open !== undefined || facts.length > 0, DEF: () => this.CONSUME(t.Close) });
    return this.ACTION(() => {
      const body = this.blockOf(open, close, "keypad");
      return { kind: "keypad", start: keyword.start, end: t.endOf(this.LA(0)), keyword, name, label, model, facts, body };
    });
  });

  /** A fact of a keypad or a record whose opening brace is missing. */
  protected isStoredFact(): boolean {
    const type = this.LA(1).tokenType;
    return type === t.first("relay") || type === t.first("installer") || type === t.first("all-relay") || type === t.first("setting");
  }

  protected onceStored(seen: Map<string, Span>, fact: StoredFact): void {
    const what = singleOf(fact);
    // Settings are told apart by their label, all-relay codes by their number.
    const own = fact.kind === "setting" ? fact.label?.text : fact.kind === "all-relay" ? fact.number?.text : undefined;
    if (what !== undefined) this.once(seen, what, fact, `${what} ${own ?? ""}`);
  }

  /** Installer and all-relay codes, code length, setting, note: in a keypad with holders, in a record (`stored`) with digits. */
  protected readonly storedFact = this.RULE(
    "storedFact",
    (stored: boolean): Exclude<KeypadFact, RelayDecl> =>
      this.OR([
        { ALT: () => this.SUBRULE(this.installer, { ARGS: [stored] }) },
        { ALT: () => this.SUBRULE(this.allRelay, { ARGS: [stored] }) },
        { ALT: () => this.SUBRULE(this.codeLength) },
        { ALT: () => this.SUBRULE(this.setting) },
        { ALT: () => this.SUBRULE(this.note) },
      ]) as Exclude<KeypadFact, RelayDecl>,
  );

  protected readonly installer = this.RULE("installer", (stored: boolean): InstallerFact => {
    const keyword = word(this.CONSUME(t.keyword("installer")));
    const code = this.OPTION1(() => this.CONSUME(t.inside("code")));
    if (code === undefined) this.missing("`code`");
    const digits = this.OPTION2(() => word(this.CONSUME(t.Digits)));
    const held = this.OPTION3({ GATE: () => digits === undefined && !stored && this.isHeld(), DEF: () => this.SUBRULE(this.held) });
    if (digits === undefined && held === undefined) this.missing(stored ? "the digits of a code" : "the digits of a code, or a holder");
    return this.ACTION(() => ({ kind: "installer", start: keyword.start, end: t.endOf(this.LA(0)), keyword, digits, held }));
  });

  protected readonly allRelay = this.RULE("allRelay", (stored: boolean): AllRelayFact => {
    const keyword = word(this.CONSUME(t.keyword("all-relay")));
    const number = this.OPTION1(() => word(this.CONSUME1(t.Digits)));
    const code = this.OPTION2(() => this.CONSUME(t.inside("code")));
    let digits: Word | undefined;
    let held: Held | undefined;
    let unknown: Span | undefined;
    this.OPTION3({
      GATE: () => stored,
      DEF: () =>
        this.OR([
          { ALT: () => (digits = word(this.CONSUME2(t.Digits))) },
          { ALT: () => (unknown = span(this.CONSUME(t.keyword("unknown")))) },
        ]),
    });
    if (code === undefined && unknown === undefined) this.missing("`code`");
    this.OPTION4({ GATE: () => !stored && this.isHeld(), DEF: () => (held = this.SUBRULE(this.held)) });
    if (stored && digits === undefined && unknown === undefined) this.missing("the digits of a code, or `unknown`");
    if (!stored && held === undefined) this.missing("a holder");
    return this.ACTION(() => ({
      kind: "all-relay",
      start: keyword.start,
      end: t.endOf(this.LA(0)),
      keyword,
      number,
      held,
      digits,
      unknown,
    }));
  });

  protected readonly codeLength = this.RULE("codeLength", (): CodeLengthFact => {
    const keyword = word(this.CONSUME(t.keyword("code")));
    const length = this.OPTION({ GATE: () => this.isSameLine(), DEF: () => this.CONSUME(t.keyword("length")) });
    if (length === undefined) this.missing("`length`");
    const digits = this.SUBRULE(this.number, { ARGS: ["a number of digits"] });
    return this.ACTION(() => ({ kind: "code-length", start: keyword.start, end: t.endOf(this.LA(0)), keyword, digits }));
  });

  protected readonly setting = this.RULE("setting", (): SettingFact => {
    const keyword = word(this.CONSUME(t.keyword("setting")));
    const label = this.SUBRULE(this.quoted, { ARGS: ["the setting's name in quotes"] });
    const value = this.SUBRULE(this.number, { ARGS: ["the setting's number"] });
    return { kind: "setting", start: keyword.start, end: (value ?? label ?? keyword).end, keyword, label, value };
  });

  /* Relays and entries */

  protected readonly relayNumbers = this.RULE("relayNumbers", (): Word[] => {
    const numbers: Word[] = [];
    const number = this.SUBRULE1(this.number, { ARGS: ["a relay's number"] });
    if (number !== undefined) numbers.push(number);
    this.MANY(() => {
      this.CONSUME(t.Plus);
      const more = this.SUBRULE2(this.number, { ARGS: ["a relay's number"] });
      if (more !== undefined) numbers.push(more);
    });
    return numbers;
  });

  protected readonly relay = this.RULE("relay", (): RelayDecl => {
    const keyword = word(this.CONSUME(t.keyword("relay")));
    const numbers = this.SUBRULE(this.relayNumbers);
    const label = this.OPTION1(() => str(this.CONSUME(t.Text)));
    let spare: Span | undefined;
    let noCodes: Span | undefined;
    let release: Release | undefined;
    this.MANY1(() =>
      this.OR1([
        { ALT: () => (spare = span(this.CONSUME(t.keyword("spare")))) },
        {
          ALT: () => {
            const no = this.CONSUME(t.keyword("no"));
            const codes = this.SUBRULE(this.phrase, { ARGS: [["codes"]] });
            noCodes = { start: no.startOffset, end: codes?.end ?? t.endOf(no) };
          },
        },
        {
          ALT: () => {
            const again = this.SUBRULE(this.release);
            if (release !== undefined) this.twice("`release`", release, again);
            release ??= again;
          },
        },
      ]),
    );
    this.SUBRULE(this.headJunk, { ARGS: ["`{`, `release`, `spare` or `no codes`"] });
    if ((spare ?? noCodes) !== undefined && (this.isNext(t.Open) || release !== undefined)) this.contradiction(spare !== undefined);
    const list: Entry[] = [];
    const open = this.OPTION2(() => this.CONSUME(t.Open));
    if (open === undefined && this.isNext(t.Digits)) this.missing("`{`");
    // Made once for all entries of the relay.
    const ways = [
      { ALT: () => list.push(this.SUBRULE(this.entry)) },
      { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [entries] }) },
    ];
    this.MANY2({
      GATE: () => (open !== undefined || list.length > 0 || this.isNext(t.Digits)) && this.isEntryNext(),
      DEF: () => this.OR2(ways),
    });
    const close = this.OPTION3({ GATE: () => open !== undefined || list.length > 0, DEF: () => this.CONSUME(t.Close) });
    return this.ACTION(() => {
      const body = this.blockOf(open, close, "relay");
      const end = t.endOf(this.LA(0));
      return { kind: "relay", start: keyword.start, end, keyword, numbers, label, spare, noCodes, release, entries: list, body };
    });
  });

  private contradiction(spare: boolean): void {
    const next = this.LA(1);
    const what = spare ? "`spare`" : "`no codes`";
    if (next.tokenType === t.Open)
      this.report(next.startOffset, t.endOf(next), `expected nothing more of the relay after ${what}, found \`{\``);
    else this.report(t.endOf(this.LA(0)), t.endOf(this.LA(0)), `expected ${what} or \`release\`, found both`);
  }

  protected isEntryNext(): boolean {
    const next = this.LA(1);
    return next.tokenType !== t.Close && next.tokenType.name !== "EOF" && !this.isA(next, t.First);
  }

  protected readonly release = this.RULE("release", (): Release => {
    const keyword = word(this.CONSUME(t.keyword("release")));
    const toggle = this.OPTION1(() => span(this.CONSUME(t.keyword("toggle"))));
    const seconds = this.OPTION2({ GATE: () => this.isSameLine() && this.isNext(t.Digits), DEF: () => this.SUBRULE(this.time) });
    if (toggle === undefined && seconds === undefined) this.missing("a time like `5s`, or `toggle`");
    return this.ACTION(() => ({ kind: "release", start: keyword.start, end: t.endOf(this.LA(0)), keyword, seconds, toggle }));
  });

  protected readonly entry = this.RULE("entry", (): Entry => {
    let slot: Word | undefined;
    let held: Held | undefined;
    this.OR([
      {
        ALT: () => {
          slot = word(this.CONSUME(t.Digits));
          held = this.OPTION1(() => this.SUBRULE1(this.held));
        },
      },
      { ALT: () => (held = this.SUBRULE2(this.held)) },
    ]);
    if (held === undefined) this.missing("a holder", spokenSlot(slot));
    const pair = this.OPTION2({ GATE: () => held !== undefined && this.isSameLine(), DEF: () => this.SUBRULE(this.pair) });
    const start = (slot ?? held)?.start ?? 0;
    return { kind: "entry", start, end: (pair ?? held ?? slot)?.end ?? start, slot, held, pair };
  });

  protected readonly pair = this.RULE("pair", (): Pair => {
    const token = this.OR([{ ALT: () => word(this.CONSUME(t.keyword("or"))) }, { ALT: () => word(this.CONSUME(t.keyword("with"))) }]);
    const mode = token;
    const held = this.OPTION({ GATE: () => this.isSameLine(), DEF: () => this.SUBRULE(this.held) });
    if (held === undefined) this.missing("a holder");
    return { start: mode.start, end: (held ?? mode).end, mode: mode.text as Pair["mode"], word: mode, held };
  });

  protected readonly held = this.RULE("held", (): Held => {
    const holder = word(this.CONSUME1(t.Name));
    let dot: Span | undefined;
    let credential: Word | undefined;
    this.OPTION1({
      GATE: () => this.isNext(t.Dot) && this.isSameLine(),
      DEF: () => {
        dot = span(this.CONSUME(t.Dot));
        credential = this.OPTION2({ GATE: () => this.isSameLine(), DEF: () => word(this.CONSUME2(t.Name)) });
        if (credential === undefined) this.missing("the name of a code or tag");
      },
    });
    return { start: holder.start, end: (credential ?? dot ?? holder).end, holder, dot, credential };
  });

  /** A holder stands here: a name on this line, or on the next one where it is no word that begins something. */
  private isHeld(): boolean {
    const type = this.LA(1).tokenType;
    return type === t.Word || type === t.Capital || this.isSameLine();
  }
}
