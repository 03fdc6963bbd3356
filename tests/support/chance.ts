/** Where the random tests begin: one seed for all of them, the same every day, so that a run can be had again. */
import fc from "fast-check";

/** `MULLION_SEED=…` has other cases drawn. */
const seed = Number(process.env.MULLION_SEED ?? 20261125);

/** In each test file, before its tests. */
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });

/** How many cases a test draws: as many as it says, or `MULLION_RUNS=…`. */
export function runs(usual: number): number {
  return Number(process.env.MULLION_RUNS ?? usual);
}

/** As many cases are drawn as usual, so that what is said of how much was met must hold. */
export const isWhole = process.env.MULLION_RUNS === undefined;

/** Once, before all tests. */
export function setup(): void {
  console.log(`Random tests begin with MULLION_SEED=${seed}`);
}
