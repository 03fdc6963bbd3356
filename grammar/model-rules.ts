/** Rules for `model`: what the memory is like, and which keys do what. */

import { MemoryRules, modelFactWords } from "./memory-rules.ts";
import { oneOf, word } from "./pieces.ts";
import type { Expectation } from "./reader.ts";
import { keysWanted } from "./template-rules.ts";
import * as t from "./tokens.ts";
import type { FactoryBlock, FittedFact, ModelDecl, ModelFact, OperationDecl, OperationName, Span, Str } from "./tree.ts";
import { operationNames } from "./tree.ts";

const modelFacts: Expectation = { what: "a fact or an operation of the model, or `}`", words: [...modelFactWords], keys: true };
const repeated = new Set(["setting-def", "note", "reset"]);

export class ModelRules extends MemoryRules {
  protected readonly model = this.RULE("model", (): ModelDecl => {
    const token = this.CONSUME(t.keyword("model"));
    const keyword = word(token);
    const name = this.SUBRULE(this.named, { ARGS: ["the model's name"] });
    const label = this.SUBRULE(this.quoted, { ARGS: ["what the model is, in quotes"] });
    this.SUBRULE(this.headJunk, { ARGS: ["`{`"] });
    const indent = this.ACTION(() => this.indentOf(token));
    const facts: ModelFact[] = [];
    const seen = new Map<string, Span>();
    const open = this.OPTION1(() => this.CONSUME(t.Open));
    if (open === undefined) this.missing("`{`");
    this.MANY({
      GATE: () => (open !== undefined || facts.length > 0 || this.isModelFact()) && this.goesOn(indent),
      DEF: () =>
        this.OR([
          {
            ALT: () => {
              const before = { start: this.LA(1).startOffset, end: 0 };
              const known = this.problems.length;
              const fact = this.SUBRULE(this.modelFact);
              this.SUBRULE(this.restOfLine, { ARGS: [fact ?? before, known] });
              if (fact === undefined) return;
              facts.push(fact);
              this.ACTION(() => this.onceInModel(seen, fact));
            },
          },
          { IGNORE_AMBIGUITIES: true, ALT: () => this.SUBRULE(this.junk, { ARGS: [modelFacts] }) },
        ]),
    });
    const close = this.OPTION2({ GATE: () => open !== undefined || facts.length > 0, DEF: () => this.CONSUME(t.Close) });
    return this.ACTION(() => {
      const body = this.blockOf(open, close, "model");
      return { kind: "model", start: keyword.start, end: t.endOf(this.LA(0)), keyword, name, label, facts, body };
    });
  });

  private isModelFact(): boolean {
    const next = this.LA(1);
    return this.isFirstOnLine(next) && (modelFactWords as readonly string[]).includes(next.image);
  }

  private onceInModel(seen: Map<string, Span>, fact: ModelFact): void {
    if (fact.kind === "setting-def") {
      if (fact.label !== undefined) this.once(seen, "a setting of one name", fact, `setting ${fact.label.text}`);
    } else if (!repeated.has(fact.kind)) {
      const what = fact.kind === "operation" ? fact.operation : fact.keyword.text;
      this.once(seen, `\`${what}\``, fact.kind === "operation" ? fact.name : fact.keyword);
    }
  }

  protected readonly modelFact = this.RULE("modelFact", (): ModelFact | undefined =>
    this.OR([
      { ALT: () => this.SUBRULE(this.keys) },
      { ALT: () => this.SUBRULE(this.relays) },
      { ALT: () => this.SUBRULE(this.slots) },
      { ALT: () => this.SUBRULE(this.codes) },
      { ALT: () => this.SUBRULE(this.fixedRule) },
      { ALT: () => this.SUBRULE(this.releaseRange) },
      { ALT: () => this.SUBRULE(this.waiting) },
      { ALT: () => this.SUBRULE(this.lockout) },
      { ALT: () => this.SUBRULE(this.refused) },
      { ALT: () => this.SUBRULE(this.cancel) },
      { ALT: () => this.SUBRULE(this.resetByHand) },
      { ALT: () => this.SUBRULE(this.settingDef) },
      { ALT: () => this.SUBRULE(this.tags) },
      { ALT: () => this.SUBRULE(this.draws) },
      { ALT: () => this.SUBRULE(this.contactRating) },
      { ALT: () => this.SUBRULE(this.note) },
      { ALT: () => this.SUBRULE(this.factory) },
      { ALT: () => this.SUBRULE(this.operation) },
    ]),
  );

  /* What it holds when new, and its operations */

  protected readonly factory = this.RULE("factory", (): FactoryBlock => {
    const token = this.CONSUME(t.keyword("factory"));
    const keyword = word(token);
    const facts: FittedFact[] = [];
    const body = this.SUBRULE(this.storedBlock, { ARGS: [token, facts, "factory block", true] });
    return this.ACTION(() => ({ kind: "factory", start: keyword.start, end: t.endOf(this.LA(0)), keyword, facts, body }));
  });

  protected readonly operation = this.RULE("operation", (): OperationDecl | undefined => {
    const keyword = word(this.CONSUME(t.Operates));
    const seconds = this.ACTION(() => secondWords(keyword.text));
    const second = this.OPTION1({
      GATE: () => seconds.includes(this.LA(1).image) && this.isSameLine(),
      DEF: () => word(this.CONSUME(t.Name)),
    });
    if (second === undefined && seconds?.length > 0) this.missing(oneOf(seconds));
    const template = this.SUBRULE(this.template);
    if (template?.length === 0) this.missing(keysWanted);
    let shows: Str | undefined;
    let wipes: Span | undefined;
    this.MANY(() =>
      this.OR([
        { ALT: () => (shows = this.SUBRULE(this.shows) ?? shows) },
        {
          ALT: () => {
            const start = this.CONSUME(t.keyword("wipes"));
            const everything = this.SUBRULE(this.phrase, { ARGS: [["everything"]] });
            wipes = { start: start.startOffset, end: everything?.end ?? t.endOf(start) };
          },
        },
      ]),
    );
    return this.ACTION(() => {
      const operation = (second === undefined ? keyword.text : `${keyword.text} ${second.text}`) as OperationName;
      if (!operationNames.includes(operation)) return undefined;
      const name = { start: keyword.start, end: (second ?? keyword).end };
      return { kind: "operation", start: keyword.start, end: t.endOf(this.LA(0)), keyword, operation, name, template, shows, wipes };
    });
  });
}

function secondWords(first: string): string[] {
  return operationNames.filter(name => name.startsWith(`${first} `)).map(name => name.slice(first.length + 1));
}
