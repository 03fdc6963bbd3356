/** How the parser decides by the next token: one is enough, and what a decision goes by is asked for when it is first met. */
import type { IOrAlt, IToken } from "chevrotain";

/** The part of the parser that a decision asks. */
interface Reading {
  LA_FAST(ahead: number): IToken;
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
