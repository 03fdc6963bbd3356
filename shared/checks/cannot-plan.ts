/** A change that the keypad has no entry for. */
import { whyNoPlan } from "../plan/feasible.ts";
import type { CannotPlan } from "../plan/plan.ts";
import type { Keypad } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";

interface NoPlan extends Found {
  readonly keypad: Keypad;
  readonly why: CannotPlan;
}

export const cannotPlan = check({
  code: "cannot-plan",
  severity: "error",
  last: true,
  needsOpen: true,
  explain: {
    what: "The model has no entry for a change that is needed, and what would do instead.",
    why: "What cannot be typed cannot be on the sheet. The message says which change it is; often the manual has an entry that the model's text leaves out, sometimes only a reset helps.",
    triggers: mullion`
      //- main.mullion
      model wader "Never forgets" {
        slots 1..3 per relay
        codes 4 digits
        rewrite replaces
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        open code {code}
        factory { installer code 9753 }
      }
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : wader {
           //^^^^ cannot-plan
        installer code 9753 // allow factory-code: the model cannot change it
        relay 1 "Gate" {
          1 u1
        }
      }
      //- main.fitted.mullion
      fitted gate 2026-11-20 {
        model wader
        installer code 9753
        relay 1 {
          1 code 4829
          2 code 7306
        }
      }
    `,
    quiet: mullion`
      //- main.mullion
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
      //- main.fitted.mullion
      fitted gate 2026-11-20 {
        model tiny
        installer code 6044
        relay 1 {
          1 code 4829
          2 code 7306
        }
      }
    `,
  },
  *find(site, _context, { findings, beyond }): Iterable<NoPlan> {
    // What is wrong in itself has no plan either, and is said where it stands.
    const errors = findings.filter(finding => finding.severity === "error");
    const held = new Set([...beyond.keypads, ...errors.flatMap(finding => finding.keypads)]);
    if (beyond.everyKeypad || errors.some(finding => finding.keypads.length === 0)) return;
    // A model that is wrong or lacks something cannot be typed into, and says so itself.
    const wrong = new Set(site.modelProblems.filter(({ problem }) => problem.severity === "error").map(({ node }) => node));
    for (const keypad of site.keypads.values()) {
      if (held.has(keypad.id) || !keypad.model || !keypad.node.body || wrong.has(keypad.model.decl)) continue;
      const why = whyNoPlan(site, keypad);
      if (why) yield { ...at(keypad.file, keypad.node.name ?? keypad.node.keyword), keypad, why, ...only(keypad) };
    }
  },
  message: ({ keypad, why }) =>
    `${keypad.id} cannot be typed: ${why.cannot}${why.instead === undefined ? "" : `. Instead: ${why.instead}`}`,
});
