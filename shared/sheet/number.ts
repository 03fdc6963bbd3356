/** The number of a sheet: which plan it prints, told by a few characters that tell nothing of its codes. */
import { hmac } from "@noble/hashes/hmac.js";
import { sha256 } from "@noble/hashes/sha2.js";
import { utf8ToBytes } from "@noble/hashes/utils.js";
import type { Operation } from "../keypad/memory.ts";
import type { Plan } from "../plan/plan.ts";

export interface NumberOptions {
  readonly hideCodes: boolean;
  readonly showInstaller: boolean;
  /** A secret of whoever keeps the record, of any length. */
  readonly key?: string;
}

/** Digits and letters that cannot be taken for one another in handwriting: no I, L, O, U. */
const alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/** Six characters of five bits: one in a thousand million that two plans share a number. */
const characters = 6;

/**
 * The number of the sheet of one keypad's plan, such as `7K3-Q9M`.
 *
 * Of codes only those go into it that stand on the same sheet in digits: whoever holds the sheet learns nothing from its
 * number, though a digest of a few digits is found by trying them all. With a key everything goes into it, and the number
 * then changes with the installer code and on sheets without codes too.
 */
export function sheetNumber(keypad: string, plan: Plan, options: NumberOptions): string {
  const { key = "" } = options;
  const codes = key !== "" || !options.hideCodes;
  const installer = key !== "" || (codes && options.showInstaller);
  const says = JSON.stringify([
    keypad,
    plan.model.id,
    plan.start,
    plan.sessions.map(({ entries }) => entries.map(({ n, operation }) => [n, told(operation, codes, installer)])),
    installer ? plan.before.installer : "",
  ]);
  const digest = hmac(sha256, utf8ToBytes(key), utf8ToBytes(says));
  let number = "";
  for (const byte of digest.subarray(0, characters)) number += alphabet[byte & 31];
  return `${number.slice(0, 3)}-${number.slice(3)}`;
}

/** A number as it was read off paper: in any letters, with or without the dash, with the letters taken for the digits that they look like. */
export function readNumber(written: string): string {
  const plain = written.toUpperCase().replace(/[\s-]/g, "").replaceAll("O", "0").replace(/[IL]/g, "1");
  return `${plain.slice(0, 3)}-${plain.slice(3)}`;
}

/** Every number that a sheet of this plan may carry: with and without its codes, with and without the installer code. */
export function sheetNumbers(keypad: string, plan: Plan, key?: string): readonly string[] {
  const shown = [
    { hideCodes: false, showInstaller: false },
    { hideCodes: false, showInstaller: true },
    { hideCodes: true, showInstaller: false },
  ];
  return [...new Set(shown.map(options => sheetNumber(keypad, plan, { ...options, ...(key === undefined ? {} : { key }) })))];
}

function told(operation: Operation, codes: boolean, installer: boolean): object {
  const secret = operation.operation === "set installer" ? installer : codes;
  return secret || !("code" in operation) ? operation : { ...operation, code: "" };
}
