/** How large a standby battery has to be, and how long one lasts. */
import { must } from "../must.ts";

/** Room for a battery's age. Borrowed from fire alarm practice: BS 5839-1, Annex E. */
export const ageing = 1.25;

/** A current (A) for so many hours. */
export interface Draw {
  readonly amps: number;
  readonly hours: number;
}

/**
 * Ampere-hours needed: ageing × (quiescent + D × alarm load), after BS 5839-1, Annex E.
 *
 * @param d how much more a heavy load takes; `largeLoadFactor` finds it.
 */
export function capacityNeeded(quiescent: Draw, load: Draw, d: number, age: number = ageing): number {
  must(
    [quiescent.amps, quiescent.hours, load.amps, load.hours].every(part => part >= 0),
    "currents and hours are nought or more",
  );
  must(d >= 1 && age >= 1, "neither D nor ageing makes a battery larger than it is");
  return age * (quiescent.amps * quiescent.hours + d * load.amps * load.hours);
}

/** D of BS 5839-1, Annex E: 1 where the load is at most a twentieth of the capacity (Ah) that D = 1 asks for, or else 1.75. */
export function largeLoadFactor(quiescent: Draw, load: Draw): 1 | 1.75 {
  return capacityNeeded(quiescent, load, 1) / 20 >= load.amps ? 1 : 1.75;
}

/**
 * Hours that a battery lasts by Peukert's law in its form for a rated time: H × (C / (I × H))^k. The form for a label like C20.
 * Below the rated current C / H it is C / I: the law would promise more than the battery holds.
 */
export function hoursOfRated(ampHours: number, amps: number, ratedHours = 20, exponent = 1.2): number {
  must(
    ampHours > 0 && amps > 0 && ratedHours > 0 && exponent >= 1,
    "a battery has a capacity, a current, rated hours and an exponent from 1",
  );
  if (amps <= ampHours / ratedHours) return ampHours / amps;
  return ratedHours * (ampHours / (amps * ratedHours)) ** exponent;
}

/** Hours by Peukert's law in its form for one hour, C / I^k, where C is the capacity at 1 A. Wrong for a label like C20; some published examples use it. */
export function hoursOfOneHourForm(ampHours: number, amps: number, exponent: number): number {
  must(ampHours > 0 && amps > 0 && exponent >= 1, "a battery has a capacity, a current and an exponent from 1");
  return ampHours / amps ** exponent;
}
