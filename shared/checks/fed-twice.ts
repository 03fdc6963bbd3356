/** A door or a keypad that is fed from two places. */
import type { FileId } from "../finding.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

interface Twice extends Found {
  readonly what: string;
  readonly first: string;
  readonly again: string;
}

export const fedTwice = check({
  code: "fed-twice",
  severity: "warning",
  explain: {
    what: "Two supplies feed one door or keypad, or one supply names it twice.",
    why: "Two supplies wired together push current into each other, and whoever switches one off has not made the door dead. Only the first is counted in the sum of the door; the budget of each counts the load. Local code, the maker's instructions and a competent person decide.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" release 5s {
          1 u1
        }
      }

      supply cupboard "Riser cupboard" 12 V 2 A {
        feeds "Foot gate"
      }
      supply loft "Loft" 12 V 2 A {
        feeds "Foot gate", keypad gate
            //^^^^^^^^^^^ fed-twice
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" release 5s {
          1 u1
        }
      }

      supply cupboard "Riser cupboard" 12 V 2 A {
        feeds "Foot gate"
      }
      supply loft "Loft" 12 V 2 A {
        feeds keypad gate
      }
    `,
  },
  *find(site): Iterable<Twice> {
    const seen = new Map<string, { file: FileId; start: number; end: number; supply: string }>();
    for (const { file, node } of site.supplies) {
      const supply = node.label?.text ?? node.name?.text ?? "a supply";
      for (const fed of node.facts.flatMap(fact => fact.feeds)) {
        const word = "door" in fed ? fed.door : fed.keypad;
        const key = `${"door" in fed ? "door" : "keypad"} ${word.text}`;
        const first = seen.get(key);
        if (!first) {
          seen.set(key, { ...at(file, word), supply });
          continue;
        }
        const label = "door" in fed ? word.text : (site.keypads.get(word.text)?.label ?? word.text);
        const related = [{ ...at(first.file, first), message: `${first.supply} feeds it here` }];
        yield { ...at(file, word), related, what: label, first: first.supply, again: supply };
      }
    }
  },
  message: ({ what, first, again }) =>
    first === again
      ? `${again} already feeds ${what}`
      : `${what} is fed by ${first}, too: two supplies are not wired together unless their makers allow it`,
});
