/** Volts, amperes, ohms, ampere-hours and hours in words, and what every judgement about a door ends with. */
import type { CableSum } from "./door-sum.ts";

/** Whatever is said about a door, somebody else decides. To be put behind a comma, a colon or a semicolon. */
export const whoDecides = "local code, the maker's instructions and a competent person decide";
/** The same as a sentence of its own. */
export const decides = "Local code, the maker's instructions and a competent person decide.";

/** `13.32 V`. */
export function voltsWords(volts: number, places = 2): string {
  return `${rounded(volts, places)} V`;
}

/** `350 mA` below an ampere, `1.5 A` from there. */
export function ampsWords(amps: number, places = 2): string {
  return Math.abs(amps) > 0 && Math.abs(amps) < 1
    ? `${rounded(amps * 1000, Math.max(0, places - 1))} mA`
    : `${rounded(amps, places + 1)} A`;
}

/** `1.372 Ω`. */
export function ohmsWords(ohms: number): string {
  return `${rounded(ohms, 3)} Ω`;
}

export function ampHoursWords(ampHours: number, places = 2): string {
  return `${rounded(ampHours, places)} Ah`;
}

export function hoursWords(hours: number, places = 1): string {
  return `${rounded(hours, places)} h`;
}

/** A value and the limit that it is held against, with as many places as it takes to tell one from the other. */
export function heldAgainst(words: (value: number, places: number) => string, value: number, limit: number): readonly [string, string] {
  for (let places = 2; ; places++) {
    const both = [words(value, places), words(limit, places)] as const;
    if (both[0] !== both[1] || places >= 9) return both;
  }
}

/** `2 × 28 m of 0.75 mm² at 20 °C`. */
export function cableWords({ metres, mm2, awg, celsius }: CableSum): string {
  return `2 × ${rounded(metres, 2)} m of ${mm2 === undefined ? `${awg} AWG` : `${mm2} mm²`} at ${rounded(celsius, 1)} °C`;
}

/** With so many places at most, and no noughts at their end. */
export function rounded(value: number, places: number): string {
  return String(Number(value.toFixed(places)));
}

/** `; assumed: 20 °C, nothing else on the cable`. */
export function assumedWords(assumed: readonly string[]): string {
  return assumed.length === 0 ? "" : `; assumed: ${assumed.join(", ")}`;
}
