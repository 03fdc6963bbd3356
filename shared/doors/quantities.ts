/** Numbers with their units as the text has them, brought to volts, amperes, metres, mm², gauges, °C, per cent, ampere-hours and hours. */
import type { Quantity } from "../../grammar/tree.ts";

/** The unit that a number is kept in. */
export type Unit = "V" | "A" | "m" | "mm2" | "AWG" | "C" | "%" | "Ah" | "h" | "s";

export interface Measured {
  readonly unit: Unit;
  readonly value: number;
}

/** Each unit as the text may have it, and what one of it is. */
const spelled: ReadonlyMap<string, readonly [unit: Unit, times: number]> = new Map([
  ["V", ["V", 1]],
  ["A", ["A", 1]],
  ["mA", ["A", 0.001]],
  ["m", ["m", 1]],
  ["mm2", ["mm2", 1]],
  ["mm²", ["mm2", 1]],
  ["AWG", ["AWG", 1]],
  ["C", ["C", 1]],
  ["°C", ["C", 1]],
  ["%", ["%", 1]],
  ["Ah", ["Ah", 1]],
  ["h", ["h", 1]],
  ["s", ["s", 1]],
]);

/** What a number with its unit says; undefined where the unit is missing or none of ours, or the number is not one that can be read. */
export function measured({ value, unit }: Quantity): Measured | undefined {
  const number = numberOf(value.text);
  const known = unit && spelled.get(unit.text);
  return number === undefined || known === undefined ? undefined : { unit: known[0], value: inBase(number, known[1]) };
}

/** No meter shows less, no door has more, in any unit: what is beyond is a slip. Our own choice. */
const [least, most] = [1e-6, 1e6];

/** A number as written, with a point; undefined for one with a comma or beyond all measure. */
export function numberOf(text: string): number | undefined {
  const number = /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  const size = Math.abs(number);
  return number === 0 || (size >= least && size <= most) ? number : undefined;
}

/** 350 mA are 0.35 A, not 0.35000000000000003 A. */
function inBase(number: number, times: number): number {
  return times === 1 ? number : number / Math.round(1 / times);
}

/** A unit as the text has it. */
export function isUnit(text: string): boolean {
  return spelled.has(text);
}
