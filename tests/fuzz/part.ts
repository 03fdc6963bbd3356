/** One part of the fuzzing: what is tried on one case, and how a run of cases is made, counted and repeated. */
import { Random, seedOf } from "./random.ts";

/** A case: everything that it does is decided by its seed, or by its number among the cases that are no matter of chance. */
export interface Attempt {
  readonly random: Random;
  /** For libraries that want a seed of their own; the one that `random` began with. */
  readonly seed: number;
  /** From 0 up to the part's `fixed`; undefined for a case of chance. */
  readonly fixed: number | undefined;
  /** What is being tried, as text or how to write it: kept in a file should the case fail. The last one said counts. */
  keep(tried: string | (() => string)): void;
  /** How many things this case tries; one where it does not say. */
  counts(things: number): void;
}

export interface Part {
  /** What `--only` calls it. */
  readonly name: string;
  /** What is counted: "documents", "plans". */
  readonly counted: string;
  /** Cases that are no matter of chance, such as every line of every sample: a long run tries all of them once, by turns with those of chance. */
  readonly fixed?: number;
  /** How many cases `npm test` tries of each sort, evenly spread over the fixed ones. */
  readonly short: { readonly fixed?: number; readonly random: number };
  begin?(): void | Promise<void>;
  /** Tries one case. It throws where something does not hold. */
  attempt(one: Attempt): void | Promise<void>;
  end?(): void | Promise<void>;
}

export interface Failure {
  /** What `--case` repeats: `1234567`, or `fixed:12`. */
  readonly name: string;
  readonly fault: unknown;
  readonly tried: string | undefined;
  /** How many cases failed in the same words, numbers apart: of these the one with the shortest text is kept. */
  readonly times: number;
}

export interface Outcome {
  readonly cases: number;
  readonly counted: number;
  readonly seconds: number;
  readonly failures: readonly Failure[];
}

export interface RunOptions {
  readonly seed: number;
  /** Cases by name, instead of drawn ones. */
  readonly cases?: readonly string[];
  /** Milliseconds for which cases are tried; without it as many as `npm test` tries. */
  readonly time?: number;
  /** A run ends with this many failures that differ in their words. */
  readonly mostFailures?: number;
  /** Milliseconds since any beginning. */
  readonly clock: () => number;
}

export async function runPart(part: Part, options: RunOptions): Promise<Outcome> {
  const begun = options.clock();
  const failures = new Map<string, Failure>();
  let [cases, counted] = [0, 0];
  await part.begin?.();
  try {
    for (const name of namesOf(part, options)) {
      const fixed = name.startsWith("fixed:") ? Number(name.slice("fixed:".length)) : undefined;
      const seed = fixed ?? Number(name);
      let tell: () => string | undefined = () => undefined;
      let things = 1;
      const one: Attempt = {
        random: new Random(seed),
        seed,
        fixed,
        keep: text => {
          tell = typeof text === "function" ? text : () => text;
        },
        counts: count => {
          things = count;
        },
      };
      try {
        await part.attempt(one);
      } catch (fault) {
        const tried = tell();
        const words = String(fault).replaceAll(/\d+/g, "");
        const before = failures.get(words);
        const isShorter = before === undefined || (tried ?? "").length < (before.tried ?? "").length;
        failures.set(words, { ...(isShorter ? { name, fault, tried } : before), times: (before?.times ?? 0) + 1 });
      }
      cases++;
      counted += things;
      if (failures.size >= (options.mostFailures ?? 10)) break;
      if (options.time !== undefined && options.clock() - begun >= options.time) break;
    }
  } finally {
    await part.end?.();
  }
  return { cases, counted, seconds: (options.clock() - begun) / 1000, failures: [...failures.values()] };
}

function* namesOf({ fixed = 0, short }: Part, { seed, cases, time }: RunOptions): Generator<string> {
  if (cases) return yield* cases;
  const inOrder = (index: number, all: number) => `fixed:${Math.floor((index * fixed) / all)}`;
  if (time === undefined) {
    const tried = Math.min(fixed, short.fixed ?? 0);
    for (let index = 0; index < tried; index++) yield inOrder(index, tried);
    for (let index = 0; index < short.random; index++) yield String(seedOf(seed, index));
    return;
  }
  // By turns, and the fixed ones in steps that reach each of them once, from another one for each seed: a run that ends early has tried some of all.
  const step = strideFor(fixed);
  for (let index = 0; ; index++) {
    if (index < fixed) yield `fixed:${(seed + index * step) % fixed}`;
    yield String(seedOf(seed, index));
  }
}

/** A step of about 0.618 of the count that has no divisor in common with it. */
function strideFor(count: number): number {
  const common = (one: number, other: number): number => (other === 0 ? one : common(other, one % other));
  let step = Math.max(1, Math.round(count * 0.618));
  while (common(step, Math.max(1, count)) !== 1) step++;
  return step;
}
