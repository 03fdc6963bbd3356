/** What lapses within a fortnight. */
import type { Day } from "../site/site.ts";
import type { HeldAt } from "../site/where.ts";
import { heldEverywhere } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { daysBetween } from "./days.ts";
import { credentialWords } from "./words.ts";

/** Days ahead: time to plan a visit. */
const soon = 14;

interface Lapsing extends Found {
  readonly placed: HeldAt;
  readonly until: Day;
  readonly days: number;
}

export const untilSoon = check({
  code: "until-soon",
  severity: "information",
  needsOpen: true,
  explain: {
    what: "A code or tag that is placed lapses within 14 days.",
    why: "Somebody has to drive there and take it out, or its date has to be moved: the keypad will not do it. Fourteen days ahead is our choice.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder cln "Cleaner"
        until 2026-12-04
        code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 cln
          //^^^ until-soon
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
  *find(site, { today }): Iterable<Lapsing> {
    for (const placed of heldEverywhere(site)) {
      const { keypad, use } = placed;
      const until = use.credential?.until;
      const days = until === undefined ? undefined : daysBetween(today, until);
      if (!use.credential || until === undefined || days === undefined || days < 0 || days > soon) continue;
      const node = use.credential.node.until ?? use.credential.holder.node.facts.find(fact => fact.kind === "until") ?? use.credential.node;
      const related = [{ ...at(use.credential.file, node), message: "the last day" }];
      yield { ...at(use.file, use.node), ...only(keypad), related, placed, until, days };
    }
  },
  message: ({ placed, until, days }) => {
    const what = placed.use.credential ? credentialWords(placed.use.credential) : "this";
    const when = days === 0 ? "today" : days === 1 ? "tomorrow" : `in ${days} days`;
    return `${what} has its last day ${when}, ${until}`;
  },
});
