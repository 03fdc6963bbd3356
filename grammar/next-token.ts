/**
 * What each decision of the grammar goes by, worked out from its rules. Chevrotain's own way can look several tokens ahead, and works
 * every decision out when a parser is made, which takes longer than to read a small site. Here one token decides, when it is met.
 */
import type { ILookaheadStrategy, IProduction, Rule } from "chevrotain";
import {
  Alternation,
  LLkLookaheadStrategy,
  NonTerminal,
  Option,
  Repetition,
  RepetitionMandatory,
  RepetitionMandatoryWithSeparator,
  RepetitionWithSeparator,
  Terminal,
} from "chevrotain";

import type { Beginning } from "./lookahead.ts";
import { deciding } from "./lookahead.ts";

type ForAlternation = Parameters<ILookaheadStrategy["buildLookaheadForAlternation"]>[0];
type ForOptional = Parameters<ILookaheadStrategy["buildLookaheadForOptional"]>[0];

/** A part of a rule that holds other parts, one after the other. */
interface Sequence extends IProduction {
  readonly definition: IProduction[];
}

export class NextToken extends LLkLookaheadStrategy {
  readonly #ofRules = new Map<Rule, Beginning>();

  constructor() {
    super({ maxLookahead: 1 });
  }

  override buildLookaheadForAlternation({ rule, prodOccurrence, hasPredicates }: ForAlternation) {
    const workOut = () => ({ ways: this.#alternativesOf(rule, prodOccurrence), gated: hasPredicates });
    return deciding(hasPredicates, workOut) as ReturnType<ILookaheadStrategy["buildLookaheadForAlternation"]>;
  }

  override buildLookaheadForOptional({ rule, prodOccurrence, prodType }: ForOptional) {
    const workOut = () => ({ inside: this.#insideOf(rule, prodOccurrence, prodType) });
    return deciding(undefined, workOut) as ReturnType<ILookaheadStrategy["buildLookaheadForOptional"]>;
  }

  #alternativesOf(rule: Rule, occurrence: number): readonly Beginning[] {
    const found = within(rule.definition, (part): part is Alternation => part instanceof Alternation && part.idx === occurrence);
    return found.flatMap(({ definition }) => definition.map(alternative => this.#beginningOf([alternative])));
  }

  #insideOf(rule: Rule, occurrence: number, type: ForOptional["prodType"]): Beginning {
    const kind = optionalKinds[type];
    const found = within(rule.definition, (part): part is Sequence => part instanceof kind && part.idx === occurrence);
    return this.#beginningOf(found.flatMap(part => part.definition));
  }

  #beginningOf(sequence: readonly IProduction[]): Beginning {
    const types = new Set<number>();
    for (const part of sequence) {
      const one = this.#beginningOfPart(part);
      for (const type of one.types) types.add(type);
      if (!one.empty) return { types, empty: false };
    }
    return { types, empty: true };
  }

  #beginningOfPart(part: IProduction): Beginning {
    if (part instanceof Terminal) {
      const { tokenTypeIdx, categoryMatches } = part.terminalType;
      return { types: new Set([tokenTypeIdx ?? 0, ...(categoryMatches ?? [])]), empty: false };
    }
    if (part instanceof NonTerminal) {
      const known = this.#ofRules.get(part.referencedRule) ?? this.#beginningOf(part.referencedRule.definition);
      this.#ofRules.set(part.referencedRule, known);
      return known;
    }
    if (part instanceof Alternation) {
      const alternatives = part.definition.map(alternative => this.#beginningOf([alternative]));
      return { types: new Set(alternatives.flatMap(({ types }) => [...types])), empty: alternatives.some(({ empty }) => empty) };
    }
    const inside = this.#beginningOf((part as Sequence).definition);
    const mayBeLeftOut = part instanceof Option || part instanceof Repetition || part instanceof RepetitionWithSeparator;
    return mayBeLeftOut ? { types: inside.types, empty: true } : inside;
  }
}

const optionalKinds = { Option, Repetition, RepetitionMandatory, RepetitionMandatoryWithSeparator, RepetitionWithSeparator };

/** Every part of a rule, however deep, that is wanted; the rules that it names are not gone into. */
function within<T extends IProduction>(parts: readonly IProduction[], wanted: (part: IProduction) => part is T): readonly T[] {
  return parts.flatMap(part => {
    if (wanted(part)) return [part];
    return part instanceof NonTerminal || part instanceof Terminal ? [] : within((part as Sequence).definition, wanted);
  });
}
