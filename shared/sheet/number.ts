/** The number of a sheet: which plan it prints, told by a few characters that tell nothing of its codes. */
import { hmac } from "@noble/hashes/hmac.js";
import { sha256 } from "@noble/hashes/sha2.js";
import { utf8ToBytes } from "@noble/hashes/utils.js";
import type { Operation } from "../keypad/memory.ts";
import type { Plan } from "../plan/plan.ts";

/** Digits and letters that cannot be taken for one another in handwriting: no I, L, O, U. */
const alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/** Six characters of five bits: one in a thousand million that two plans share a number. */
const characters = 6;

/**
 * The number of the sheet of one keypad's plan, such as `7K3-Q9M`.
 *
 * @param key a secret of whoever keeps the record, of any length. A number made with it also changes when only the digits
 * of a code change. Without it the digits are left out of the digest: a digest of a few digits is found by trying them all.
 */
export function sheetNumber(keypad: string, plan: Plan, key = ""): string {
  const says = JSON.stringify([
    keypad,
    plan.model.id,
    plan.start,
    plan.sessions.map(session => session.entries.map(entry => [entry.n, key === "" ? withoutCode(entry.operation) : entry.operation])),
  ]);
  const digest = hmac(sha256, utf8ToBytes(key), utf8ToBytes(says));
  let number = "";
  for (const byte of digest.subarray(0, characters)) number += alphabet[byte & 31];
  return `${number.slice(0, 3)}-${number.slice(3)}`;
}

function withoutCode(operation: Operation): object {
  return "code" in operation ? { ...operation, code: "" } : operation;
}
