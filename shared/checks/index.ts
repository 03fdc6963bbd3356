/** The list of checks, in the order in which findings of one place are shown. */
import { allowUnused } from "./allow-unused.ts";
import { codeMissing } from "./code-missing.ts";
import { nameUnknown } from "./name-unknown.ts";
import { slotClash } from "./slot-clash.ts";
import { syntax } from "./syntax.ts";
import { tooMany } from "./too-many.ts";

export const checks = [syntax, nameUnknown, codeMissing, slotClash, allowUnused, tooMany] as const;

/** The codes of all checks: what marks, allowances and `mullion explain` may name. */
export type Code = (typeof checks)[number]["code"];
