/** One row of a table, read: what can be taken as it stands, what is guessed, what is refused. No code is ever said. */
import { quoted } from "../quoted.ts";
import { readTag } from "../tags/spelling.ts";
import type { ColumnName, Columns } from "./columns.ts";

export interface ReadRow {
  /** As a spreadsheet numbers it; the heading is row 1. */
  readonly row: number;
  readonly holder: string;
  readonly code?: string;
  /** As it goes into the text. */
  readonly tag?: string;
  readonly keypad: string;
  readonly relay: string;
  readonly slot: string;
  readonly guesses: readonly string[];
  readonly refusals: readonly string[];
}

/** @param usual the length that most codes of the column have, where they have one */
export function readRow(cells: readonly string[], row: number, columns: Columns, usual: number | undefined): ReadRow {
  const cell = (name: ColumnName) => {
    const at = columns[name];
    return at === undefined ? "" : (cells[at] ?? "").trim();
  };
  const guesses: string[] = [];
  const refusals: string[] = [];
  const holder = cell("holder").replace(/\s+/g, " ");
  if (holder === "") refusals.push("it names no holder");
  const code = readCode(cell("code"), usual, guesses, refusals);
  const tag = readPrinted(cell("tag"), guesses, refusals);
  return {
    row,
    holder,
    ...(code === undefined ? {} : { code }),
    ...(tag === undefined ? {} : { tag }),
    keypad: cell("keypad"),
    relay: cell("relay"),
    slot: cell("slot").replace(/\.0+$/, ""),
    guesses,
    refusals,
  };
}

/** The length of more than half of a column's codes; undefined where no length is that usual. */
export function usualLength(codes: readonly string[]): number | undefined {
  const counts = new Map<number, number>();
  const digits = codes.map(code => code.trim().replace(/\.0+$/, "")).filter(code => /^\d+$/.test(code));
  for (const { length } of digits) counts.set(length, (counts.get(length) ?? 0) + 1);
  return [...counts].find(([, count]) => count * 2 > digits.length)?.[0];
}

function readCode(written: string, usual: number | undefined, guesses: string[], refusals: string[]): string | undefined {
  if (written === "") return undefined;
  // A spreadsheet that took the code for a number.
  const digits = written.replace(/^'/, "").replace(/\.0+$/, "");
  if (!/^\d+$/.test(digits)) {
    refusals.push(
      /^\d+(\.\d+)?[eE]\+?\d+$/.test(digits) ? "a spreadsheet has rounded the code to a power of ten" : "the code is not all digits",
    );
    return undefined;
  }
  if (usual !== undefined && digits.length < usual) {
    guesses.push(
      `the code had lost ${usual - digits.length === 1 ? "a zero" : `${usual - digits.length} zeros`} in front; most codes have ${usual} digits`,
    );
    return digits.padStart(usual, "0");
  }
  return digits;
}

function readPrinted(written: string, guesses: string[], refusals: string[]): string | undefined {
  if (written === "") return undefined;
  const spelled = written
    .replace(/^'/, "")
    .split(",")
    .map(part => part.trim())
    .join(",")
    .replace(/\.0+$/, "");
  if (/^\d+(\.\d+)?[eE]\+?\d+$/.test(spelled)) {
    refusals.push("a spreadsheet has rounded the tag's number to a power of ten");
    return undefined;
  }
  const hexadecimal = /^[0-9A-Fa-f]+$/.test(spelled) && /[A-Fa-f]/.test(spelled) ? `0x${spelled}` : spelled;
  if (hexadecimal !== spelled) guesses.push("the tag's number was taken as hexadecimal");
  // Eight digits are the data bits, or facility and number run together: 21302000 may be 213,02000.
  const together = /^\d{8}$/.test(spelled) && Number(spelled.slice(0, 3)) <= 255 && Number(spelled.slice(3)) <= 65_535;
  if (together && Number(spelled) >= 1 << 24) {
    guesses.push("the tag's eight digits were taken as facility and number run together: they are too large for 24 bits");
    return `${spelled.slice(0, 3)},${spelled.slice(3)}`;
  }
  if (together)
    guesses.push(
      `the tag's eight digits were taken as its data bits; were they facility and number run together, it would be ${spelled.slice(0, 3)},${spelled.slice(3)}`,
    );
  const read = readTag(hexadecimal);
  if ("tag" in read) return hexadecimal;
  // Words are a mark: a colour, a label.
  if (read.problem === "not-a-tag" && /\p{L}/u.test(spelled)) return quoted(written.replace(/[\r\n]+/g, " "));
  refusals.push(read.problem === "too-many-bits" ? "the tag's number has more than 56 bits" : "the tag's number cannot be read");
  return undefined;
}
