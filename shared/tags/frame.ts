/** The open 26-bit frame in which readers send a tag's number, and the other ways in which tags have theirs printed. */
import { must } from "../must.ts";

/** The 24 data bits of the frame: 8 of facility, 16 of number. */
export interface FacilityNumber {
  readonly facility: number;
  readonly number: number;
}

/**
 * The 26 bits as sent, most significant first: even parity over the first 12 data bits, 8 bits facility, 16 bits number, odd parity over the last 12 data bits.
 * Source: the open 26-bit format (SIA AC-01), as described alike on several independent pages.
 *
 * @throws BrokenInvariant for a facility outside 0..255 or a number outside 0..65535.
 */
export function frame26({ facility, number }: FacilityNumber): string {
  must(Number.isInteger(facility) && facility >= 0 && facility <= 255, "a facility is 0 to 255");
  must(Number.isInteger(number) && number >= 0 && number <= 65_535, "a tag's number is 0 to 65535");
  const data = facility.toString(2).padStart(8, "0") + number.toString(2).padStart(16, "0");
  return `${ones(data.slice(0, 12)) % 2}${data}${1 - (ones(data.slice(12)) % 2)}`;
}

export type FrameProblem = "length" | "digits" | "left parity" | "right parity";

/** Reads 26 bits as sent. */
export function readFrame26(bits: string): FacilityNumber | FrameProblem {
  if (!/^[01]*$/.test(bits)) return "digits";
  if (bits.length !== 26) return "length";
  if (ones(bits.slice(0, 13)) % 2 !== 0) return "left parity";
  if (ones(bits.slice(13)) % 2 !== 1) return "right parity";
  return { facility: Number.parseInt(bits.slice(1, 9), 2), number: Number.parseInt(bits.slice(9, 25), 2) };
}

function ones(bits: string): number {
  return [...bits].filter(bit => bit === "1").length;
}

/** What may be printed on one tag. Decimal texts padded as they are printed. */
export interface Printings {
  /** Ten digits: the low 32 bits. */
  readonly ten: string;
  /** Eight digits: the low 24 bits. */
  readonly eight: string;
  /** `ddd,ddddd`: 8 bits facility, 16 bits number. */
  readonly facilityNumber: string;
  /** `ddddd,ddddd`: the low 32 bits as two halves. */
  readonly halves: string;
  readonly hex: string;
}

/** All printings of the data bits `value` (decimal text, up to 56 bits). */
export function printings(value: string): Printings {
  const bits = BigInt(value);
  const low = (count: number) => bits & ((1n << BigInt(count)) - 1n);
  const part = (from: number, count: number) => (bits >> BigInt(from)) & ((1n << BigInt(count)) - 1n);
  const padded = (number: bigint, width: number) => number.toString().padStart(width, "0");
  return {
    ten: padded(low(32), 10),
    eight: padded(low(24), 8),
    facilityNumber: `${padded(part(16, 8), 3)},${padded(low(16), 5)}`,
    halves: `${padded(part(16, 16), 5)},${padded(low(16), 5)}`,
    hex: bits
      .toString(16)
      .toUpperCase()
      .padStart(bits >= 1n << 32n ? 10 : 6, "0"),
  };
}
