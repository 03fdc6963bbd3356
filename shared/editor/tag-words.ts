/** A tag's number in every way that it may be printed, and as a reader sends it. */
import type { TagId } from "../keypad/memory.ts";
import { frame26, printings } from "../tags/frame.ts";
import { spellings } from "../tags/spelling.ts";
import { plain, verbatim } from "./markdown.ts";

/**
 * As Markdown. A tag's number is no secret: it opens nothing without the tag.
 *
 * @param written as it stands in the text
 * @returns undefined for a tag that is known by its mark alone
 */
export function tagWords(tag: TagId, written: string): string | undefined {
  const spelled = spellings(tag);
  if (!spelled) return undefined;
  const value = BigInt(tag);
  const { ten, eight, halves } = printings(tag);
  const lines = [
    `the same tag: ${verbatim(spelled.decimal)}, ${verbatim(spelled.pair)}, ${verbatim(spelled.hex)}`,
    ...(value < 1n << 32n
      ? [`printed as ten digits ${verbatim(ten)}, as eight digits ${verbatim(eight)}, as two halves ${verbatim(halves)}`]
      : [`its last 32 bits, as ten digits: ${verbatim(ten)}`]),
    ...(value < 1n << 24n ? [frameLine(value)] : ["too large for the open 26-bit frame, which carries 24 bits"]),
    ...lookAlike(written),
  ];
  return ["**tag**", "", ...lines.map(line => `- ${line}`)].join("\n");
}

function frameLine(value: bigint): string {
  const facility = Number(value >> 16n);
  const number = Number(value & 0xffffn);
  const bits = frame26({ facility, number });
  const parts = [bits.slice(0, 1), bits.slice(1, 9), bits.slice(9, 25), bits.slice(25)].join(" ");
  return `facility ${facility}, number ${number}; in the open 26-bit frame ${verbatim(parts)} (even parity, facility, number, odd parity)`;
}

/** Facility and number run together without a comma have eight digits too, and are another tag. */
function lookAlike(written: string): readonly string[] {
  if (!/^\d{8}$/.test(written)) return [];
  const [facility, number] = [Number(written.slice(0, 3)), Number(written.slice(3))];
  if (facility > 255 || number > 65_535) return [];
  const other = `${written.slice(0, 3)},${written.slice(3)}`;
  return [plain("read as eight digits of the data bits; were it facility and number without their comma, it would be ") + verbatim(other)];
}
