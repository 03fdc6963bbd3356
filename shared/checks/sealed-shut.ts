/** A sealed file that nobody opened: what was not looked at, said once. */
import type { Sealed } from "../finding.ts";
import { saidAt } from "../sealed/said-at.ts";
import { shutWords } from "../sealed/shut.ts";
import type { Found } from "./check.ts";
import { check, mullion } from "./check.ts";
import { noKeypad } from "./touched.ts";

interface Shut extends Found {
  readonly sealed: Sealed;
  readonly notRun: readonly string[];
}

export const sealedShut = check({
  code: "sealed-shut",
  severity: "information",
  last: true,
  explain: {
    what: "A sealed file that was not opened, or a record that cannot be read: what needs its text was not checked.",
    why: "Names and places are checked by the names file beside it. Digits, dates, numbers of tags and the record are not known, so that the checks that need them were not run, and no sheet can be made. Give an identity that the file was sealed for: `--identity FILE`, or the environment variable MULLION_IDENTITY with the file's path.",
    triggers: mullion`
      //- main.mullion
      use "people.mullion.age"
        //^^^^^^^^^^^^^^^^^^^^ sealed-shut

      keypad gate "Gate" : tiny {
        installer code u1.gate
        relay 1 "Gate" {
          1 u1
        }
      }
      //- people.names
      holder u1: code, code gate
      //- people.mullion.age
    `,
    quiet: mullion`
      //- main.mullion
      use "people.mullion"

      keypad gate "Gate" : tiny {
        installer code u1.gate
        relay 1 "Gate" {
          1 u1
        }
      }
      //- people.mullion
      holder u1 "Unit 1"
        code 4829
        code gate 6044
    `,
  },
  *find(site, _context, { notRun }): Iterable<Shut> {
    for (const sealed of site.shut) yield { ...saidAt(site, sealed), keypads: noKeypad, sealed, notRun: [...notRun] };
  },
  message: ({ sealed, notRun }) => {
    const names = sealed.names
      ? ""
      : "; no names file beside it says what it holds, so that names that it may declare are not checked either";
    return `${shutWords([sealed])}: what needs its text was not checked (${notRun.join(", ")})${names}`;
  },
});
