/** What is still to be typed at the keypads of a site, how long it takes and what must be brought. */
import type { Finding } from "../finding.ts";
import type { Day, Keypad, Site } from "../site/site.ts";
import { holdsBack } from "./held-back.ts";
import type { CannotPlan, Plan } from "./plan.ts";
import { minutesOf } from "./time.ts";

export interface Waiting {
  readonly site: string;
  readonly keypad: Keypad;
  /** Entries to type; 0 where record and text agree. Undefined where no sheet can be made, and `why` says so. */
  readonly entries?: number;
  readonly minutes?: number;
  /** The estimate that `minutes` is rounded up from. */
  readonly seconds?: number;
  /** Tags to present, by number or mark. */
  readonly tags: readonly string[];
  readonly why?: string;
  /** The day of the record; undefined for a keypad as it left the factory. */
  readonly fitted?: Day;
}

/**
 * @param findings the site's: a keypad with an error has no sheet, and that is said
 * @param planOf from what is fitted; undefined where the keypad's model is not known
 */
export function waitingAt(
  site: Site,
  label: string,
  findings: readonly Finding[],
  planOf: (keypad: Keypad) => Plan | CannotPlan | undefined,
): readonly Waiting[] {
  return [...site.keypads.values()].map(keypad => {
    const fitted = keypad.fitted?.date === undefined ? {} : { fitted: keypad.fitted.date };
    const errors = findings.filter(finding => holdsBack(finding, keypad));
    if (errors.length > 0) {
      return {
        site: label,
        keypad,
        tags: [],
        why: errors.length === 1 ? "an error holds its sheet back" : `${errors.length} errors hold its sheet back`,
        ...fitted,
      };
    }
    const plan = planOf(keypad);
    if (!plan) return { site: label, keypad, tags: [], why: "its model is not known", ...fitted };
    if ("cannot" in plan) return { site: label, keypad, tags: [], why: plan.cannot, ...fitted };
    return {
      site: label,
      keypad,
      entries: plan.counts.entries,
      minutes: minutesOf(plan.seconds),
      seconds: plan.seconds,
      tags: plan.tags,
      ...fitted,
    };
  });
}
