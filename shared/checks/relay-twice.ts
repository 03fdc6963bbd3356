/** One relay described twice on one keypad. */
import type { KeypadRelay } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { numbersOf } from "./relay-range.ts";

interface Twice extends Found {
  readonly first: KeypadRelay;
  readonly again: KeypadRelay;
}

export const relayTwice = check({
  code: "relay-twice",
  severity: "error",
  explain: {
    what: "One relay, or one set of relays, described twice on one keypad.",
    why: "Label, release time and whether it is spare can be said once only; slots that look free in one of the two blocks are taken in the other.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
        relay 1 "Porch" {
            //^ relay-twice
          2 u2
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u2
        }
      }
    `,
  },
  *find(site): Iterable<Twice> {
    for (const keypad of site.keypads.values()) {
      const seen = new Map<string, KeypadRelay>();
      for (const again of keypad.relays) {
        if (again.set === "") continue;
        const first = seen.get(again.set);
        if (!first) {
          seen.set(again.set, again);
          continue;
        }
        const related = [{ ...at(keypad.file, numbersOf(first)), message: "described here first" }];
        yield { ...at(keypad.file, numbersOf(again)), ...only(keypad), related, first, again };
      }
    }
  },
  message: ({ again, first }) => `relay ${again.set} is described already${first.label === undefined ? "" : `, as ${first.label}`}`,
});
