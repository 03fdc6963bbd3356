/** What has lapsed and still opens, since a keypad has no calendar. */
import type { Day } from "../site/site.ts";
import type { HeldAt } from "../site/where.ts";
import { heldEverywhere } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { daysBetween } from "./days.ts";
import { removePlaced } from "./edits.ts";
import { credentialWords } from "./words.ts";

interface Lapsed extends Found {
  readonly placed: HeldAt;
  readonly until: Day;
}

export const untilPassed = check({
  code: "until-passed",
  severity: "warning",
  needsOpen: true,
  explain: {
    what: "A code or tag is past its last day and still placed.",
    why: "A keypad has no calendar: what has lapsed opens the door until it is taken out at the keypad. It stays in what is wanted, and so on the sheet, until its line is taken out.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder cln "Cleaner"
        until 2026-03-31
        code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 cln
          //^^^ until-passed
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829
      holder cln "Cleaner"
        until 2027-03-31
        code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 cln
        }
      }
    `,
    context: { today: "2026-11-25" },
  },
  *find(site, { today }): Iterable<Lapsed> {
    for (const placed of heldEverywhere(site)) {
      const { keypad, use } = placed;
      const until = use.credential?.until;
      if (!use.credential || until === undefined || (daysBetween(today, until) ?? 0) >= 0) continue;
      const node = use.credential.node.until ?? use.credential.holder.node.facts.find(fact => fact.kind === "until") ?? use.credential.node;
      const related = [{ ...at(use.credential.file, node), message: "the last day" }];
      yield { ...at(use.file, use.node), ...only(keypad), related, placed, until, tags: ["deprecated"] };
    }
  },
  message: ({ placed, until }) => {
    const what = placed.use.credential ? credentialWords(placed.use.credential) : "this";
    return `${what} lapsed on ${until}, and opens until it is taken out at the keypad`;
  },
  fixes: ({ placed }, site) => removePlaced(site, placed),
});
