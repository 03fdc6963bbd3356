/** The record of a sealed site in plain text: it holds the very codes that the site seals. */
import { fittedCompanions } from "../site/paths.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";
import { noKeypad } from "./touched.ts";

export const recordPlain = check({
  code: "record-plain",
  severity: "warning",
  explain: {
    what: "The fitted record of a sealed site stands in plain text.",
    why: "What a keypad is known to hold is every code that is in it. Seal the record too: `mullion seal NAME.fitted.mullion --remove`. What was committed of it stays in git's history.",
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
      //- main.fitted.mullion
      fitted gate 2026-11-20 {
    //^^^^^^^^^^^ record-plain
        model tiny
        installer code 6044
        relay 1 {
          1 code 4829
        }
      }
    `,
    quiet: mullion`
      //- main.mullion
      holder u1 "Unit 1"
        code 4829
        code gate 6044

      keypad gate "Gate" : tiny {
        installer code u1.gate
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
        }
      }
    `,
  },
  *find(site): Iterable<Found> {
    if (!site.files.some(({ sealed }) => sealed)) return;
    const records = new Set(site.files.flatMap(({ file }) => fittedCompanions(file)));
    for (const { file, sealed, tree } of site.files) {
      if (sealed || !records.has(file)) continue;
      // A record that says that nothing is known holds no code.
      const block = tree.declarations.find(node => node.kind === "fitted" && node.facts.length > 0);
      if (block?.kind === "fitted")
        yield { ...at(file, { start: block.start, end: block.keypad?.end ?? block.keyword.end }), keypads: noKeypad };
    }
  },
  message: () => "codes of this site are sealed, and this record shows them in plain text; seal it too",
});
