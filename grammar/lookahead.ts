/**
 * How the parser decides by the next token. Chevrotain's own way can look several tokens ahead, and works every decision out when a
 * parser is made, which takes longer than to read a small site. Here one token decides, and a decision is worked out when it is met.
 */
import type { ILookaheadStrategy, IOrAlt, IProduction, IToken, Rule } from "chevrotain";
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

type ForAlternation = Parameters<ILookaheadStrategy["buildLookaheadForAlternation"]>[0];
type ForOptional = Parameters<ILookaheadStrategy["buildLookaheadForOptional"]>[0];

/** The part of the parser that a decision asks. */
interface Reading {
  LA_FAST(ahead: number): IToken;
}

/** A part of a rule that holds other parts, one after the other. */
interface Sequence extends IProduction {
  readonly definition: IProduction[];
}

/** What a stretch of a rule can begin with: type numbers of tokens, those that a category takes in included. */
export interface Beginning {
  readonly types: ReadonlySet<number>;
  /** It may also be nothing at all. */
  readonly empty: boolean;
}

/** What a decision goes by: one of several ways, or whether to go in at all. `gated`: some ways have a gate of their own. */
export type Decision = { readonly ways: readonly Beginning[]; readonly gated: boolean } | { readonly inside: Beginning };

/** Makes a decision, as the parser calls it, of what it goes by. That is asked for when the decision is first met. */
export function deciding(
  gated: boolean | undefined,
  workOut: () => Decision,
): (said?: readonly IOrAlt<unknown>[]) => number | boolean | undefined {
  const decide = gated === undefined ? whether(workOut) : gated ? betweenGates(workOut) : between(workOut);
  decisions.set(decide, workOut);
  return decide as ReturnType<typeof deciding>;
}

/** What a decision that was made here goes by. */
export function decisionOf(decide: object): Decision | undefined {
  return decisions.get(decide)?.();
}

const decisions = new WeakMap<object, () => Decision>();

/** Whether the next token can begin what may be left out or said again. */
function whether(workOut: () => Decision) {
  let inside: Beginning | undefined;
  return function (this: Reading): boolean {
    inside ??= waysOf(workOut())[0] ?? nothing;
    return inside.empty || inside.types.has(this.LA_FAST(1).tokenTypeIdx);
  };
}

/** The number of the first way that the next token can begin. */
function between(workOut: () => Decision) {
  let byType: ReadonlyMap<number, number> | undefined;
  return function (this: Reading): number | undefined {
    byType ??= choices(waysOf(workOut()));
    return byType.get(this.LA_FAST(1).tokenTypeIdx) ?? byType.get(otherwise);
  };
}

/** The number of the first way that the next token can begin and whose gate is open. */
function betweenGates(workOut: () => Decision) {
  let ways: readonly Beginning[] | undefined;
  return function (this: Reading, said: readonly IOrAlt<unknown>[] = []): number | undefined {
    ways ??= waysOf(workOut());
    const next = this.LA_FAST(1).tokenTypeIdx;
    for (let index = 0; index < ways.length; index++) {
      const { types, empty } = ways[index] as Beginning;
      if ((empty || types.has(next)) && said[index]?.GATE?.call(this) !== false) return index;
    }
    return undefined;
  };
}

const nothing: Beginning = { types: new Set(), empty: true };

function waysOf(decision: Decision): readonly Beginning[] {
  return "ways" in decision ? decision.ways : [decision.inside];
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

/** Stands for every token that no alternative begins with. */
const otherwise = -1;

/** Which alternative a token begins: the first that it can. One that may be nothing takes all that is left. */
function choices(alternatives: readonly Beginning[]): ReadonlyMap<number, number> {
  const chosen = new Map<number, number>();
  for (const [index, { types, empty }] of alternatives.entries()) {
    for (const type of empty ? [...types, otherwise] : types) if (!chosen.has(type)) chosen.set(type, index);
    if (empty) break;
  }
  return chosen;
}

const optionalKinds = { Option, Repetition, RepetitionMandatory, RepetitionMandatoryWithSeparator, RepetitionWithSeparator };

/** Every part of a rule, however deep, that is wanted; the rules that it names are not gone into. */
function within<T extends IProduction>(parts: readonly IProduction[], wanted: (part: IProduction) => part is T): readonly T[] {
  return parts.flatMap(part => {
    if (wanted(part)) return [part];
    return part instanceof NonTerminal || part instanceof Terminal ? [] : within((part as Sequence).definition, wanted);
  });
}
