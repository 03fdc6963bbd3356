/** What a cable takes from the volts of a supply before they are at the lock. */
import { must } from "../must.ts";

/** A pair of conductors, there and back. */
export interface Run {
  /** One way, metres. */
  readonly metres: number;
  /** Of one conductor at its temperature. Any table's value will do. */
  readonly ohmsPerKm: number;
}

/** Ohms of both conductors. */
export function runOhms(run: Run): number {
  must(run.metres >= 0 && run.ohmsPerKm >= 0, "a cable has a length and a resistance of nought or more");
  return (2 * run.metres * run.ohmsPerKm) / 1000;
}

/** Volts lost for a load that takes the same current (A) whatever its volts. It overstates the loss for a plain coil. */
export function dropAtCurrent(run: Run, amps: number): number {
  must(amps >= 0, "a current is nought or more");
  return runOhms(run) * amps;
}

/** Volts lost for a coil that takes its rated current (A, above nought) at its rated volts and less at less. */
export function dropOfCoil(run: Run, supplyVolts: number, ratedVolts: number, ratedAmps: number): number {
  must(ratedVolts > 0 && ratedAmps > 0, "a coil has rated volts and a rated current");
  const cable = runOhms(run);
  return (supplyVolts * cable) / (cable + ratedVolts / ratedAmps);
}
