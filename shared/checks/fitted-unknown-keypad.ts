/** A record of a keypad that the site does not have. */
import type { Word } from "../../grammar/tree.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";
import { replace } from "./edits.ts";
import { nearestName } from "./nearest.ts";
import { orNone } from "./touched.ts";

interface UnknownKeypad extends Found {
  readonly word: Word;
  /** Keypads of the site that have no record. */
  readonly unrecorded: readonly string[];
  readonly meant?: string;
}

export const fittedUnknownKeypad = check({
  code: "fitted-unknown-keypad",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "A fitted record of a keypad that the site does not have.",
    why: "The keypad was probably given another name. Without its record it would be typed as if it came from the factory, on top of what it holds.",
    triggers: mullion`
      //- main.mullion
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
      //- main.fitted.mullion
      fitted gat 2026-11-20 {
           //^^^ fitted-unknown-keypad
        model tiny
        installer code 6044
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
      }
    `,
  },
  *find(site): Iterable<UnknownKeypad> {
    const unrecorded = [...site.keypads.values()].filter(keypad => !keypad.fitted).map(keypad => keypad.id);
    for (const { file, keypadId, node } of site.fitted) {
      if (!node.keypad || site.keypads.has(keypadId)) continue;
      const meant = nearestName(keypadId, unrecorded) ?? (unrecorded.length === 1 ? unrecorded[0] : undefined);
      const found = { ...at(file, node.keypad), keypads: orNone(unrecorded), word: node.keypad, unrecorded };
      yield { ...found, ...(meant === undefined ? {} : { meant }) };
    }
  },
  message: ({ word, meant }) => `no keypad is called ${word.text}${meant === undefined ? "" : `; ${meant} is, and has no record`}`,
  fixes: ({ file, word, unrecorded, meant }) =>
    [...unrecorded]
      .sort((one, other) => Number(other === meant) - Number(one === meant))
      .map(id => ({ title: `This is the record of ${id}`, edits: [replace(file, word, id)], preferred: id === meant })),
});
