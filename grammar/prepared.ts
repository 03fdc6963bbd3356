/**
 * The parser's decisions, worked out when the program is built: Chevrotain runs through every rule to learn what it may begin with,
 * which takes a sixth of the time of a small check. Where nothing is prepared, or for other tokens, it does that when it starts.
 */
import type { Beginning, Decision } from "./lookahead.ts";
import { deciding, decisionOf } from "./lookahead.ts";
import { vocabulary } from "./tokens.ts";

/** Plain values, to be written into the program. A beginning is the number of its set of types, doubled, plus 1 where it may be empty. */
export interface Prepared {
  /** Which vocabulary it was worked out for. */
  readonly tokens: readonly [count: number, last: string];
  /** Places in the vocabulary: Chevrotain numbers its types by what else it has made. */
  readonly sets: readonly (readonly number[])[];
  /** Rule number, and for each of its decisions: key, `inside`, `ways` or `gated`, beginnings. */
  readonly rules: readonly (readonly [number, readonly (readonly [number, Kind, readonly number[]])[]])[];
}

type Kind = "inside" | "ways" | "gated";

/** Put in by the build, as JSON, which takes less time to read than a program; undefined in tests. */
declare const MULLION_DECISIONS: string | undefined;

/** Chevrotain's own names, of the version that package-lock.json pins: a rule's decisions by its number and their keys. */
interface Insides {
  lookAheadFuncsCache: (object[] | undefined)[];
  selfAnalysisDone: boolean;
}

/** What the build put in. */
export function built(): Prepared | undefined {
  return typeof MULLION_DECISIONS === "undefined" ? undefined : JSON.parse(MULLION_DECISIONS);
}

/** What a parser that has worked everything out goes by. */
export function prepare(parser: object): Prepared {
  const sets: (readonly number[])[] = [];
  const known = new Map<string, number>();
  const numbered = ({ types, empty }: Beginning): number => {
    const sorted = vocabulary.flatMap(({ tokenTypeIdx }, place) => (types.has(tokenTypeIdx as number) ? [place] : []));
    const number = known.get(sorted.join()) ?? sets.push(sorted) - 1;
    known.set(sorted.join(), number);
    return number * 2 + (empty ? 1 : 0);
  };
  const written = (decision: Decision): readonly [Kind, readonly number[]] =>
    "ways" in decision ? [decision.gated ? "gated" : "ways", decision.ways.map(numbered)] : ["inside", [numbered(decision.inside)]];
  const rules = (parser as Insides).lookAheadFuncsCache.flatMap((ofRule, rule) => {
    const decisions = (ofRule ?? []).flatMap((decide, key) => {
      const decision = decisionOf(decide);
      return decision ? [[key, ...written(decision)] as const] : [];
    });
    return [[rule, decisions] as const];
  });
  return { tokens: tokens(), sets, rules };
}

/** Gives a new parser what was prepared. False where there is nothing, or it is for other tokens: then it has to work it out itself. */
export function takePrepared(parser: object, prepared: Prepared | undefined): boolean {
  if (!prepared || prepared.tokens.join() !== tokens().join()) return false;
  const made: ReadonlySet<number>[] = [];
  const beginning = (number: number): Beginning => {
    const set = number >> 1;
    made[set] ??= new Set(prepared.sets[set]?.map(place => vocabulary[place]?.tokenTypeIdx as number));
    return { types: made[set] as ReadonlySet<number>, empty: (number & 1) === 1 };
  };
  const insides = parser as Insides;
  for (const [rule, decisions] of prepared.rules) {
    const ofRule: object[] = [];
    for (const [key, kind, beginnings] of decisions) {
      const ways = () => beginnings.map(beginning);
      ofRule[key] =
        kind === "inside"
          ? deciding(undefined, () => ({ inside: beginning(beginnings[0] ?? 0) }))
          : deciding(kind === "gated", () => ({ ways: ways(), gated: kind === "gated" }));
    }
    insides.lookAheadFuncsCache[rule] = ofRule;
  }
  insides.selfAnalysisDone = true;
  return true;
}

function tokens(): Prepared["tokens"] {
  return [vocabulary.length, vocabulary.at(-1)?.name ?? ""];
}
