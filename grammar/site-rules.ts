/** Rules for `use`, `site`, `policy` and `holder`. */
import type { IToken } from "chevrotain";
import { nearest } from "./found.ts";
import { Pieces, span, str, word } from "./pieces.ts";
import type { Expectation } from "./reader.ts";
import * as t from "./tokens.ts";
import type {
  CodeCredential,
  HolderDecl,
  HolderFact,
  PolicyDecl,
  PolicyRule,
  SiteDecl,
  Span,
  TagCredential,
  TextFact,
  Until,
  Use,
  Word,
} from "./tree.ts";

const siteFacts = { what: "an address, a contact or a note", words: ["address", "contact", "note"] };
const holderFacts: Expectation = { what: "a code, a tag, `until` or a note", words: ["code", "tag", "until", "note"], declarations: true };
const policyRules = { what: "`weak codes`, `near codes` or `guess odds`", words: ["weak", "near", "guess"] };

type Building<T> = { -readonly [K in keyof T]: T[K] };

export class SiteRules extends Pieces {
  protected readonly use = this.RULE("use", (): Use => {
    const keyword = word(this.CONSUME(t.keyword("use")));
    const path = this.SUBRULE(this.quoted, { ARGS: ["the path of a file in quotes"] });
    return { kind: "use", start: keyword.start, end: path?.end ?? keyword.end, keyword, path };
  });

  protected readonly site = this.RULE("site", (): SiteDecl => {
    const token = this.CONSUME(t.keyword("site"));
    const keyword = word(token);
    const label = this.SUBRULE(this.quoted, { ARGS: ["the site's name in quotes"] });
    const indent = this.ACTION(() => this.indentOf(token));
    const facts: TextFact[] = [];
    const seen = new Map<string, Span>();
    const open = this.OPTION1(() => this.CONSUME(t.Open));
    this.MANY({
      GATE: () => (open !== undefined || this.isSiteFact()) && this.goesOn(indent),
      DEF: () =>
        this.OR([
          {
            ALT: () => {
              const fact = this.SUBRULE(this.textFact);
              facts.push(fact);
              this.ACTION(() => fact.kind !== "note" && this.once(seen, `\`${fact.kind}\``, fact.keyword));
            },
          },
          { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [siteFacts] }) },
        ]),
    });
    const close = this.OPTION2({ GATE: () => open !== undefined || facts.length > 0, DEF: () => this.CONSUME(t.Close) });
    return this.ACTION(() => {
      const body = this.blockOf(open, close, "site");
      return { kind: "site", start: keyword.start, end: t.endOf(this.LA(0)), keyword, label, facts, body };
    });
  });

  /** A fact of a site whose opening brace is missing. */
  private isSiteFact(): boolean {
    const next = this.LA(1);
    if (next.tokenType !== t.first("address") && next.tokenType !== t.first("contact")) return false;
    this.missing("`{`");
    return true;
  }

  protected readonly textFact = this.RULE("textFact", (): TextFact => {
    const token = this.OR([
      { ALT: () => word(this.CONSUME(t.keyword("address"))) },
      { ALT: () => word(this.CONSUME(t.keyword("contact"))) },
      { ALT: () => word(this.CONSUME(t.keyword("note"))) },
    ]);
    const keyword = token;
    const text = this.SUBRULE(this.quoted, { ARGS: ["a text in quotes"] });
    return { kind: keyword.text as TextFact["kind"], start: keyword.start, end: text?.end ?? keyword.end, keyword, text };
  });

  protected readonly note = this.RULE("note", (): TextFact => {
    const keyword = word(this.CONSUME(t.keyword("note")));
    const text = this.SUBRULE(this.quoted, { ARGS: ["a text in quotes"] });
    return { kind: "note", start: keyword.start, end: text?.end ?? keyword.end, keyword, text };
  });

  /* Policy */

  protected readonly policy = this.RULE("policy", (): PolicyDecl => {
    const token = this.CONSUME(t.keyword("policy"));
    const keyword = word(token);
    const indent = this.ACTION(() => this.indentOf(token));
    const rules: PolicyRule[] = [];
    const seen = new Map<string, Span>();
    const open = this.OPTION1(() => this.CONSUME(t.Open));
    if (open === undefined) this.missing("`{`");
    this.MANY({
      GATE: () => (open !== undefined || this.isPolicyRule()) && this.goesOn(indent),
      DEF: () =>
        this.OR([
          {
            ALT: () => {
              const known = this.problems.length;
              const rule = this.SUBRULE(this.policyRule);
              rules.push(rule);
              this.SUBRULE(this.restOfLine, { ARGS: [rule, known] });
              this.ACTION(() => this.once(seen, `\`${rule.kind.replace("-", " ")}\``, rule.keyword));
            },
          },
          { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [policyRules] }) },
        ]),
    });
    const close = this.OPTION2({ GATE: () => open !== undefined || rules.length > 0, DEF: () => this.CONSUME(t.Close) });
    return this.ACTION(() => {
      const body = this.blockOf(open, close, "policy");
      return { kind: "policy", start: keyword.start, end: t.endOf(this.LA(0)), keyword, rules, body };
    });
  });

  private isPolicyRule(): boolean {
    const next = this.LA(1).tokenType;
    return next === t.keyword("weak") || next === t.keyword("near") || next === t.keyword("guess");
  }

  protected readonly policyRule = this.RULE("policyRule", (): PolicyRule => {
    const token = this.OR([
      { ALT: () => word(this.CONSUME(t.keyword("weak"))) },
      { ALT: () => word(this.CONSUME(t.keyword("near"))) },
      { ALT: () => word(this.CONSUME(t.keyword("guess"))) },
    ]);
    const kind = token.text === "guess" ? "guess-odds" : token.text === "near" ? "near-codes" : "weak-codes";
    this.SUBRULE(this.phrase, { ARGS: [[kind === "guess-odds" ? "odds" : "codes"]] });
    let digits: Word | undefined;
    let oneIn: Word | undefined;
    this.OPTION1({
      GATE: () => kind === "near-codes",
      DEF: () => {
        digits = word(this.CONSUME1(t.Digits));
        this.SUBRULE1(this.phrase, { ARGS: [["digits", "digit"], "`digits`"] });
      },
    });
    this.OPTION2({
      GATE: () => kind === "guess-odds",
      DEF: () => {
        this.CONSUME2(t.Digits);
        this.SUBRULE2(this.phrase, { ARGS: [["in"]] });
        oneIn = this.SUBRULE(this.number, { ARGS: ["a number"] });
      },
    });
    const verdict = this.OPTION3({
      GATE: () => this.phraseLength(verdicts) > 0,
      DEF: () => this.SUBRULE(this.saidPhrase, { ARGS: [verdicts] }),
    });
    return this.ACTION(() => {
      if (digits === undefined && oneIn === undefined && verdict === undefined) {
        const number = kind === "near-codes" ? "a number of digits, " : kind === "guess-odds" ? "odds (one in a number), " : "";
        this.missing(`${number}\`warn\`, \`refuse\` or \`allow\``);
      }
      const keyword = token;
      return {
        kind,
        start: keyword.start,
        end: t.endOf(this.LA(0)),
        keyword,
        verdict: verdict?.text as PolicyRule["verdict"],
        digits,
        oneIn,
      };
    });
  });

  /* Holders */

  protected readonly holder = this.RULE("holder", (): HolderDecl => {
    const token = this.CONSUME(t.keyword("holder"));
    const keyword = word(token);
    const name = this.SUBRULE(this.named, { ARGS: ["the holder's name"] });
    const label = this.SUBRULE(this.quoted, { ARGS: ["who the holder is, in quotes"] });
    const facts: HolderFact[] = [];
    let ownUntil: Until | undefined;
    let last: Building<CodeCredential> | Building<TagCredential> | undefined;
    this.MANY({
      GATE: () => this.isHolderFact(token),
      DEF: () =>
        this.OR([
          {
            ALT: () => {
              last = this.SUBRULE(this.codeCredential);
              facts.push(last);
            },
          },
          {
            ALT: () => {
              last = this.SUBRULE(this.tagCredential);
              facts.push(last);
            },
          },
          {
            ALT: () => {
              const until = this.SUBRULE(this.until);
              this.ACTION(() => {
                const first = last === undefined ? ownUntil : last.until;
                if (first !== undefined) this.twice("`until`", first.keyword, until.keyword);
                if (last === undefined) {
                  ownUntil ??= until;
                  facts.push(until);
                } else if (first === undefined) {
                  last.until = until;
                  last.end = until.end;
                }
              });
            },
          },
          { ALT: () => facts.push(this.SUBRULE(this.note)) },
          { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [holderFacts] }) },
        ]),
    });
    return this.ACTION(() => ({ kind: "holder", start: keyword.start, end: t.endOf(this.LA(0)), keyword, name, label, facts }));
  });

  /** The holder goes on: a fact of its own, or a line that was meant to be one. */
  private isHolderFact(holder: IToken): boolean {
    const next = this.LA(1);
    const type = next.tokenType;
    if (type === t.first("code") || type === t.first("tag") || type === t.first("until") || type === t.first("note")) return true;
    if (type.name === "EOF" || this.isA(next, t.First)) return false;
    const indent = this.indentOf(next);
    if (indent === undefined) return !this.isDeclaration();
    if (this.isA(next, t.Text)) return false;
    if (this.isA(next, t.Name) && this.isA(this.LA(2), t.Text) && nearest(next.image, holderFacts.words) === undefined) return false;
    // Set in no deeper than the holder: a declaration that lost its first word, not a fact of this holder.
    return indent > (this.indentOf(holder) ?? -1);
  }

  protected readonly codeCredential = this.RULE("codeCredential", (): Building<CodeCredential> => {
    const keyword = word(this.CONSUME(t.keyword("code")));
    const name = this.OPTION1({ GATE: () => this.isCredentialName(), DEF: () => word(this.CONSUME(t.Name)) });
    const digits = this.SUBRULE(this.number, { ARGS: ["the digits of a code"] });
    return { kind: "code", start: keyword.start, end: (digits ?? name ?? keyword).end, keyword, name, digits, until: undefined };
  });

  protected readonly tagCredential = this.RULE("tagCredential", (): Building<TagCredential> => {
    const keyword = word(this.CONSUME(t.keyword("tag")));
    const name = this.OPTION1({ GATE: () => this.isCredentialName(), DEF: () => word(this.CONSUME(t.Name)) });
    const number = this.OPTION2(() => this.SUBRULE(this.tagNumber));
    const mark = this.OPTION3(() => str(this.CONSUME(t.Text)));
    if (number === undefined && mark === undefined) this.missing("a tag's number, or its mark in quotes");
    const lost = this.OPTION4({ GATE: () => this.isSameLine(), DEF: () => span(this.CONSUME(t.keyword("lost"))) });
    const end = (lost ?? mark ?? number ?? name ?? keyword).end;
    return { kind: "tag", start: keyword.start, end, keyword, name, number, mark, lost, until: undefined };
  });

  protected readonly tagNumber = this.RULE("tagNumber", (): Word => {
    return this.OR([
      { ALT: () => word(this.CONSUME(t.Digits)) },
      { ALT: () => word(this.CONSUME(t.FacilityNumber)) },
      { ALT: () => word(this.CONSUME(t.Hexadecimal)) },
    ]);
  });

  /** The word after `code` or `tag` names it: it stands before what it names, or it is no word of a holder's facts. */
  private isCredentialName(): boolean {
    const type = this.LA(1).tokenType;
    if (type === t.inside("code") || type === t.inside("tag")) return false;
    if (type === t.Word || type === t.Capital || type === t.ForeignWord) return true;
    const after = this.LA(2);
    return this.isSameLine() && (after.tokenType === t.Digits || after.tokenType === t.FacilityNumber || this.isA(after, t.Text));
  }

  protected readonly until = this.RULE("until", (): Until => {
    const keyword = word(this.CONSUME(t.keyword("until")));
    const date = this.SUBRULE(this.date);
    return { kind: "until", start: keyword.start, end: (date ?? keyword).end, keyword, date };
  });
}

const verdicts = ["warn", "refuse", "allow"];
