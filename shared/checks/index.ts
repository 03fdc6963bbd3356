/** The list of checks, in the order in which findings of one place are shown. */
import { allowUnused } from "./allow-unused.ts";
import { codeMissing } from "./code-missing.ts";
import { guessOdds } from "./guess-odds.ts";
import { nameUnknown } from "./name-unknown.ts";
import { nearCodes } from "./near-codes.ts";
import { slotClash } from "./slot-clash.ts";
import { syntax } from "./syntax.ts";
import { tooMany } from "./too-many.ts";
import { weakCode } from "./weak-code.ts";

export const checks = [syntax, nameUnknown, codeMissing, slotClash, weakCode, nearCodes, guessOdds, allowUnused, tooMany] as const;

/** The codes of all checks: what marks, allowances and `mullion explain` may name. */
export type Code = (typeof checks)[number]["code"];
