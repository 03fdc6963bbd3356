/** The run sheets of some keypads of a site, and which of them are held back and why. */
import type { Finding } from "../finding.ts";
import { holdsBack } from "../plan/held-back.ts";
import type { CannotPlan, Plan } from "../plan/plan.ts";
import type { Sheet } from "../sheet/shape.ts";
import type { SheetOptions } from "../sheet/sheet.ts";
import { sheetOf } from "../sheet/sheet.ts";
import type { Keypad, Site } from "../site/site.ts";

export interface HeldSheet {
  readonly keypad: string;
  readonly label: string;
  /** In words, never a code. */
  readonly reasons: readonly string[];
}

/** @param findings every finding of this site: an error holds back the sheets of the keypads that it touches */
export function sheetsOf(
  site: Site,
  findings: readonly Finding[],
  keypads: readonly Keypad[],
  planOf: (keypad: Keypad) => Plan | CannotPlan | undefined,
  options: SheetOptions,
): { readonly sheets: readonly Sheet[]; readonly held: readonly HeldSheet[] } {
  const sheets: Sheet[] = [];
  const held: HeldSheet[] = [];
  for (const keypad of keypads) {
    const hold = (...reasons: readonly string[]) => held.push({ keypad: keypad.id, label: keypad.label, reasons });
    const errors = findings.filter(finding => holdsBack(finding, keypad));
    const plan = errors.length > 0 ? undefined : planOf(keypad);
    if (errors.length > 0) hold(...errors.map(({ message }) => message));
    else if (!plan) hold("its model is not known");
    else if ("cannot" in plan) hold(plan.instead ? `${plan.cannot}; ${plan.instead}` : plan.cannot);
    else sheets.push(sheetOf(site, keypad, plan, options));
  }
  return { sheets, held };
}
