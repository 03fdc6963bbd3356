/** What was typed at one keypad, written into its fitted record: the block, and where it goes. */
import type { FileId, Finding, SourceFile } from "../finding.ts";
import { isSealed } from "../sealed/names.ts";
import { readNumber, sheetNumbers } from "../sheet/number.ts";
import { baseName, fittedCompanion } from "../site/paths.ts";
import type { Day, Keypad, Site } from "../site/site.ts";
import { holdsBack } from "./held-back.ts";
import type { CannotPlan, Plan } from "./plan.ts";
import { holdersOf, printFitted, printUnknown, withFitted } from "./print-fitted.ts";
import type { Visit } from "./record.ts";
import { entryNumbers, recorded } from "./record.ts";

export interface Typed {
  /** `all`, or numbers of entries as on the sheet: `1-6,8`. */
  readonly done: string;
  readonly doubt?: string | undefined;
  readonly date: Day;
  /** The number of the sheet that was typed from, where it is known. */
  readonly sheet?: string | undefined;
}

export type Written =
  /** One stretch of the record is replaced; `create`: there is no such file yet. */
  | {
      readonly file: FileId;
      readonly create: boolean;
      readonly start: number;
      readonly end: number;
      readonly text: string;
      readonly entries: number;
    }
  /** In words, without a code and without a full stop. */
  | { readonly refused: string; readonly otherSheet?: true };

/** Of several plans the one that the sheet of a number was made of. */
export function planOfSheet(keypad: Keypad, plans: readonly (Plan | CannotPlan | undefined)[], sheet: string): Plan | undefined {
  const number = readNumber(sheet);
  for (const plan of plans) if (plan && !("cannot" in plan) && sheetNumbers(keypad.id, plan).includes(number)) return plan;
  return undefined;
}

/**
 * The change of the fitted record after a visit.
 *
 * @param plan what was to be typed; the site's findings must not hold it back
 * @param read gives a file that may hold the record, undefined where there is none
 */
export function recordTyped(
  site: Site,
  findings: readonly Finding[],
  keypad: Keypad,
  plan: Plan | CannotPlan | undefined,
  typed: Typed,
  read: (file: FileId) => SourceFile | undefined,
): Written {
  const error = findings.find(finding => holdsBack(finding, keypad));
  if (error) return { refused: `an error holds the sheet of ${keypad.label} back: ${error.message}` };
  if (!plan) return { refused: `the model of ${keypad.label} is not known` };
  if ("cannot" in plan) return { refused: plan.cannot };
  if (typed.sheet !== undefined && !planOfSheet(keypad, [plan], typed.sheet))
    return { refused: "text and record now give another sheet than the one that was typed from", otherSheet: true };
  const visit = visitOf(typed);
  if ("refused" in visit) return visit;
  const result = recorded(plan, visit);
  if ("refused" in result) return result;
  const block =
    result.knows === "nothing"
      ? printUnknown(keypad.id)
      : printFitted(keypad.id, plan.model, typed.date, result.memory, holdersOf(site, keypad));

  const file = keypad.fitted?.file ?? recordOf(site);
  if (file !== undefined && isSealedSite(site) && !isSealed(file))
    return { refused: `the record of a sealed site is sealed too, and ${baseName(file)} is not: mullion seal ${baseName(file)} --remove` };
  if (file === undefined) return { refused: `${baseName(site.root)} is a record itself and has none beside it` };
  const source = read(file);
  const before = source?.text ?? "";
  const after = withFitted(before, keypad.id, block);
  if (after === undefined) return { refused: `${baseName(file)} cannot be read as it is; mend it first` };
  return { file, create: source === undefined, ...difference(before, after), entries: result.entries };
}

/** Where a keypad without a record gets one: beside the site, sealed where the site is. */
function recordOf(site: Site): FileId | undefined {
  const plain = fittedCompanion(site.root);
  return plain === undefined || !isSealedSite(site) ? plain : `${plain}.age`;
}

function isSealedSite({ files }: Site): boolean {
  return files.some(({ sealed }) => sealed);
}

function visitOf({ done, doubt = "" }: Typed): Visit | { readonly refused: string } {
  const numbers = done.trim() === "all" ? "all" : entryNumbers(done);
  const doubtful = entryNumbers(doubt);
  if (numbers === undefined || doubtful === undefined) return { refused: "entries are named by their numbers, as in 1-6,8" };
  return { done: numbers, doubt: doubtful };
}

/** Without what both texts begin and end with. */
function difference(before: string, after: string): { readonly start: number; readonly end: number; readonly text: string } {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  let same = 0;
  while (same < most - start && before[before.length - 1 - same] === after[after.length - 1 - same]) same++;
  return { start, end: before.length - same, text: after.slice(start, after.length - same) };
}
