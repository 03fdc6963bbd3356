/** Conflict markers that a merge left behind. */
import type { Problem } from "../../grammar/tree.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

interface Conflict extends Found {
  readonly problem: Problem;
}

export const mergeConflict = check({
  code: "merge-conflict",
  severity: "error",
  explain: {
    what: "Two versions of the text that a merge could not put together.",
    why: "Only one of the two can be typed. The first side is read, the other is not, and the rest of the file is checked; no sheet is written until somebody has decided.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      <<<<<<< ours
    //^^^^^^^ merge-conflict
      holder u2 "Unit 2" code 5591
      =======
      holder u2 "Unit 2" code 7304
      >>>>>>> theirs
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591
    `,
  },
  *find(site): Iterable<Conflict> {
    for (const source of site.files) {
      for (const problem of source.problems) {
        if (problem.code !== "merge-conflict") continue;
        const related = (problem.related ?? []).map(one => ({ ...at(source.file, one), message: one.message }));
        yield { ...at(source.file, problem), problem, related };
      }
    }
  },
  message: ({ problem }) => problem.message,
});
