/** The three spellings of a tag's number, read into one value: `8061262`, `123,00334` and `0x7B014E` are one tag. */
import type { TagId } from "../keypad/memory.ts";

/** The most data bits that a tag may have here. */
export const mostTagBits = 56;

/**
 * `too-many-bits`: the number does not fit; `number-range`: what stands behind the comma does not fit into 16 bits;
 * `not-a-tag`: none of the three spellings.
 */
export type TagProblem = "too-many-bits" | "number-range" | "not-a-tag";

/**
 * Reads a tag's number.
 *
 * Facility and number are the upper bits and the lower 16, as on printed 26-bit tags: 123,00334 is 123 × 65536 + 334
 * (layout of the open 26-bit format: 8 bits of facility, 16 of number, most significant first).
 *
 * @param text as written: decimal, `facility,number` or `0x` and hexadecimal; leading zeros do not count.
 * @param bits data bits of the tag; 56 where it is not known.
 * @returns the decimal of the data bits without leading zeros, or what is wrong.
 */
export function readTag(text: string, bits: number = mostTagBits): { readonly tag: TagId } | { readonly problem: TagProblem } {
  const short = shortNumberOf(text);
  if (short !== undefined && short < 2 ** bits) return { tag: String(short) };
  const value = numberOf(text);
  if (typeof value === "string") return { problem: value };
  return value >> BigInt(bits) > 0n ? { problem: "too-many-bits" } : { tag: value.toString() };
}

/** Nearly every number is short enough to be read without big ones, which take longer; undefined for all others. */
function shortNumberOf(text: string): number | undefined {
  if (/^[0-9]{1,15}$/.test(text)) return Number(text);
  if (/^0[xX][0-9A-Fa-f]{1,12}$/.test(text)) return Number.parseInt(text, 16);
  if (!/^[0-9]{1,8},[0-9]{1,5}$/.test(text)) return undefined;
  const [facility, number] = text.split(",").map(Number);
  return facility === undefined || number === undefined || number > 0xffff ? undefined : facility * 0x1_0000 + number;
}

/** Longer spellings than this hold more than 56 bits, leading zeros aside; no need to make a huge number of them. */
const mostDigits = 24;

function numberOf(text: string): bigint | TagProblem {
  const hex = /^0[xX]([0-9A-Fa-f]+)$/.exec(text);
  if (hex) return whole(hex[1] ?? "", "0x");
  if (/^[0-9]+$/.test(text)) return whole(text);
  const pair = /^([0-9]+),([0-9]+)$/.exec(text);
  if (!pair) return "not-a-tag";
  const facility = whole(pair[1] ?? "");
  const number = whole(pair[2] ?? "");
  if (typeof number === "string" || number > 0xffffn) return "number-range";
  return typeof facility === "string" ? facility : (facility << 16n) | number;
}

/** Zeros before a number are none of its digits. */
function whole(written: string, base: "0x" | "" = ""): bigint | TagProblem {
  const digits = written.replace(/^0+/, "") || "0";
  return digits.length > mostDigits ? "too-many-bits" : BigInt(base + digits);
}

/** Decimal of the data bits as `facility,number` and as hexadecimal: the other two spellings, for faces that show them. */
export function spellings(tag: TagId): { readonly decimal: string; readonly pair: string; readonly hex: string } | undefined {
  if (!/^[0-9]+$/.test(tag)) return undefined;
  const value = BigInt(tag);
  const pair = `${(value >> 16n).toString().padStart(3, "0")},${(value & 0xffffn).toString().padStart(5, "0")}`;
  return { decimal: tag, pair, hex: `0x${value.toString(16).toUpperCase().padStart(6, "0")}` };
}

/** The id of a tag that has no number, just its mark. */
export function markedTag(mark: string): TagId {
  return `"${mark}"`;
}
