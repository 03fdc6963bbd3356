/** What sheets start from, as it was asked for: the record beside the site, another record, an earlier text, factory or a reset. */

import { findingsOf } from "../../../shared/checks/run.ts";
import { holdsBack } from "../../../shared/plan/held-back.ts";
import type { CannotPlan, Plan } from "../../../shared/plan/plan.ts";
import { heldByText, planFor } from "../../../shared/plan/start.ts";
import type { PlanOptions } from "../../../shared/plan/way.ts";
import { keypadPairs } from "../../../shared/review/match.ts";
import { baseName } from "../../../shared/site/paths.ts";
import type { Day, Keypad, Site } from "../../../shared/site/site.ts";
import { shelf } from "../../files.ts";
import { openNamed } from "../asked.ts";
import type { OpenedSite } from "./open-site.ts";
import { isRecord, openSite } from "./open-site.ts";

export interface Starting extends OpenedSite {
  readonly planOf: (keypad: Keypad, options?: Pick<PlanOptions, "clearAll">) => Plan | CannotPlan;
}

/** @throws ToolProblem where a file that was named cannot be read */
export function startingFrom(path: string, from: string | undefined, today: Day, cwd: string): Starting {
  if (from === undefined || from === "factory" || from === "reset") {
    const opened = openSite(path, undefined, cwd);
    return { ...opened, planOf: (keypad, options) => planFor(opened.site, keypad, from, options) };
  }
  if (isRecord(openNamed(shelf(), from, cwd))) {
    const opened = openSite(path, from, cwd);
    return { ...opened, planOf: (keypad, options) => planFor(opened.site, keypad, "fitted", options) };
  }
  const opened = openSite(path, undefined, cwd);
  const earlier = openSite(from, undefined, cwd);
  const then = keypadsThen(earlier.site, opened.site);
  const findings = findingsOf(earlier.site, { today });
  return {
    ...opened,
    problems: [...opened.problems, ...earlier.problems],
    planOf: (keypad, options) => {
      const was = then.get(keypad);
      if (!was) return planFor(opened.site, keypad, "factory", options);
      const name = baseName(earlier.site.root);
      // What cannot be planned from its own record may well have been typed.
      const errors = findings.filter(finding => finding.code !== "cannot-plan" && holdsBack(finding, was));
      if (errors.length > 0 || !was.model)
        return { cannot: `${name} has errors, so that nobody can say what it had typed`, instead: `mullion check ${from} says which` };
      if (was.model.id !== keypad.model?.id)
        return {
          cannot: `in ${name} this keypad is a ${was.model.id}, the text says ${keypad.model?.id ?? "nothing"}`,
          instead: "a keypad that was swapped is planned with --from factory",
        };
      return planFor(opened.site, keypad, { held: heldByText(was.model, was), text: name }, options);
    },
  };
}

/** Keypads of now with what they were, whatever they are called. */
function keypadsThen(earlier: Site, now: Site): ReadonlyMap<Keypad, Keypad> {
  return new Map(keypadPairs(earlier, now).flatMap(({ was, is }) => (was && is ? [[is, was] as const] : [])));
}
