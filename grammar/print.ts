/**
 * How a text is meant to look: which words begin a line and how far they are set in, which stand at a column, which touch the
 * sign before them. Worked out from the tree; `format.ts` lays the tokens out by it.
 */
import type { IToken } from "chevrotain";
import { beginningWords } from "./tokens.ts";
import type {
  Declaration,
  Element,
  Entry,
  FittedFact,
  HolderDecl,
  KeypadFact,
  ModelFact,
  PolicyRule,
  Release,
  SourceTree,
  Span,
  Word,
} from "./tree.ts";

/** One step in, in spaces. */
export const step = 2;

/** Columns of a model, counted from 0: what each fact says, an operation's keys, what the keys show, a setting's keys, how a reset is done. */
const modelColumns = { said: 11, keys: 18, shows: 54, settingKeys: 40, resetText: 29 } as const;
const policyColumn = 15;

/** Where comments behind a line stand, by the declaration that the line is in. Elsewhere one space before them is enough. */
const commentColumns: Partial<Record<Declaration["kind"], number>> = { model: 40, fitted: 29, door: 45, supply: 45, policy: 31 };

/** All by the offset at which a token begins. */
export interface Looks {
  /** First on its line, set in by so many spaces. */
  readonly indents: ReadonlyMap<number, number>;
  /** Not first on its line but where a comment or an allowance makes it so: then set in by so many spaces. */
  readonly broken: ReadonlyMap<number, number>;
  /** At this column, or one space behind what is before it. */
  readonly columns: ReadonlyMap<number, number>;
  /** No space before it. */
  readonly touching: ReadonlySet<number>;
  /** Bodies of declarations with the column of the comments in them, in the order of the text. */
  readonly comments: readonly (Span & { readonly column: number })[];
}

/** @param tokens those of the same text, in order. */
export function looksOf(tree: SourceTree, tokens: readonly IToken[]): Looks {
  const indents = new Map<number, number>();
  const broken = new Map<number, number>();
  const columns = new Map<number, number>();
  const touching = new Set<number>();
  const comments: (Span & { column: number })[] = [];

  const indexAt = (offset: number): number => {
    let [low, high] = [0, tokens.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((tokens[middle] as IToken).startOffset < offset) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  const align = (behind: number, column: number) => {
    const next = tokens[indexAt(behind)];
    if (next !== undefined) columns.set(next.startOffset, column);
  };
  const touchAll = (start: number, end: number) => {
    for (let index = indexAt(start) + 1; index < tokens.length && (tokens[index] as IToken).startOffset < end; index++) {
      touching.add((tokens[index] as IToken).startOffset);
    }
  };
  /** `5s`: the unit touches its number. */
  const time = (seconds: Word | undefined) => {
    const unit = seconds && tokens[indexAt(seconds.end)];
    if (unit?.image === "s") touching.add(unit.startOffset);
  };
  const block = (body: Span | undefined, indent: number, isEmpty: boolean) => {
    if (body === undefined) return;
    if (isEmpty && tokens[indexAt(body.start) + 1]?.startOffset === body.end - 1) touching.add(body.end - 1);
    indents.set(body.end - 1, indent);
  };

  const release = (said: Release | undefined) => time(said?.seconds);
  const template = (elements: readonly Element[]) => {
    for (const element of elements) if (element.kind === "field") touchAll(element.start, element.end);
  };
  const entry = (said: Entry, indent: number) => {
    if (!isBeginningWord(said)) indents.set(said.start, indent);
    for (const held of [said.held, said.pair?.held]) if (held?.dot !== undefined) touchAll(held.start, held.end);
  };

  const keypadFact = (fact: KeypadFact | FittedFact, indent: number) => {
    indents.set(fact.start, indent);
    if (fact.kind === "relay") {
      release(fact.release);
      for (const each of fact.entries) entry(each, indent + step);
      block(fact.body, indent, fact.entries.length === 0);
    } else if (fact.kind === "fitted-relay") {
      release(fact.release);
      for (const each of fact.entries) indents.set(each.start, indent + step);
      block(fact.body, indent, fact.entries.length === 0);
    } else if (fact.kind === "installer" || fact.kind === "all-relay") {
      if (fact.held?.dot !== undefined) touchAll(fact.held.start, fact.held.end);
    }
  };

  const modelFact = (fact: ModelFact) => {
    indents.set(fact.start, step);
    if (fact.kind === "factory") {
      for (const each of fact.facts) keypadFact(each, 2 * step);
      block(fact.body, step, fact.facts.length === 0);
      return;
    }
    if (fact.kind === "operation") {
      align(fact.name.end, modelColumns.keys);
      template(fact.template);
      const last = fact.template[fact.template.length - 1];
      if (last !== undefined && fact.end > last.end) align(last.end, modelColumns.shows);
      return;
    }
    align(fact.keyword.end, modelColumns.said);
    if (fact.kind === "setting-def") {
      template(fact.template);
      if (fact.template[0] !== undefined) columns.set(fact.template[0].start, modelColumns.settingKeys);
    } else if (fact.kind === "cancel") template(fact.template);
    else if (fact.kind === "reset" && fact.text !== undefined) columns.set(fact.text.start, modelColumns.resetText);
    else if (fact.kind === "settle" || fact.kind === "lapse" || fact.kind === "lockout") time(fact.seconds);
    else if (fact.kind === "release-range") {
      time(fact.from);
      time(fact.to);
    }
  };

  const holder = (declaration: HolderDecl) => {
    const many = declaration.facts.length > 1 ? indents : broken;
    for (const fact of declaration.facts) many.set(fact.start, step);
  };

  const policyRule = (rule: PolicyRule) => {
    indents.set(rule.start, step);
    const second = tokens[indexAt(rule.keyword.end)];
    if (second !== undefined) align(second.startOffset + second.image.length, policyColumn);
  };

  for (const declaration of tree.declarations) {
    indents.set(declaration.start, 0);
    const column = commentColumns[declaration.kind];
    if (column !== undefined) comments.push({ start: declaration.start, end: declaration.end, column });
    switch (declaration.kind) {
      case "holder":
        holder(declaration);
        break;
      case "keypad":
      case "fitted":
        for (const fact of declaration.facts) keypadFact(fact, step);
        block(declaration.body, 0, declaration.facts.length === 0);
        break;
      case "model":
        for (const fact of declaration.facts) modelFact(fact);
        block(declaration.body, 0, declaration.facts.length === 0);
        break;
      case "policy":
        for (const rule of declaration.rules) policyRule(rule);
        block(declaration.body, 0, declaration.rules.length === 0);
        break;
      case "site":
      case "door":
      case "supply":
        for (const fact of declaration.facts) indents.set(fact.start, step);
        block(declaration.body, 0, declaration.facts.length === 0);
        break;
    }
  }
  return { indents, broken, columns, touching, comments };
}

/** An unnumbered entry for a holder that has the name of a beginning word: first on its line it would be that beginning. */
function isBeginningWord({ slot, held }: Entry): boolean {
  return (
    slot === undefined && held !== undefined && held.dot === undefined && (beginningWords as readonly string[]).includes(held.holder.text)
  );
}
