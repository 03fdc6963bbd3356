/** What the grammar does not allow. */
import type { Problem } from "../../grammar/tree.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";
import { touchedAt } from "./touched.ts";

interface Syntax extends Found {
  readonly problem: Problem;
}

export const syntax = check({
  code: "syntax",
  severity: "error",
  explain: {
    what: "Something that the language does not allow.",
    why: "What cannot be read cannot be typed: the rest of the file is still understood and checked, but the keypad that the slip touches gets no sheet.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2
         //^ syntax
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
    `,
  },
  *find(site): Iterable<Syntax> {
    for (const source of site.files) {
      for (const problem of source.problems) {
        if (problem.code !== "syntax") continue;
        const related = (problem.related ?? []).map(one => ({ ...at(source.file, one), message: one.message }));
        yield { ...at(source.file, problem), problem, related, keypads: touchedAt(site, source, problem.start) };
      }
    }
  },
  message: ({ problem }) => problem.message,
});
