/** A record that was made of another model of keypad than the text names. */
import type { Word } from "../../grammar/tree.ts";
import type { Keypad } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { replace } from "./edits.ts";

interface OtherModel extends Found {
  readonly keypad: Keypad;
  /** Which of the two ends it stands at. */
  readonly side: "text" | "record";
  readonly recorded: Word;
  readonly named: Word;
}

export const fittedOtherModel = check({
  code: "fitted-other-model",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "The fitted record is of another model than the keypad's block names.",
    why: "A memory of one kind of keypad says nothing about another: no difference can be typed. Either the text names the wrong model, or the keypad was swapped and the new one must be recorded as replaced.",
    triggers: mullion`
      //- main.mullion
      model wader "Other" {
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        clear slot 3 {slot} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }
      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : wader {
                         //^^^^^ fitted-other-model
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
      //- main.fitted.mullion
      fitted gate 2026-11-20 {
        model avocet
            //^^^^^^ fitted-other-model
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
  *find(site): Iterable<OtherModel> {
    for (const keypad of site.keypads.values()) {
      const { fitted } = keypad;
      const recorded = fitted?.node.facts.find(fact => fact.kind === "model-ref")?.name;
      const named = keypad.node.model;
      if (!fitted || !recorded || !named || recorded.text === named.text) continue;
      const shared = { keypad, recorded, named, ...only(keypad) };
      const [text, record] = [at(keypad.file, named), at(fitted.file, recorded)];
      yield { ...text, ...shared, side: "text", related: [{ ...record, message: `its record is of a ${recorded.text}` }] };
      yield { ...record, ...shared, side: "record", related: [{ ...text, message: `the text names ${named.text}` }] };
    }
  },
  message: ({ keypad, side, recorded, named }) =>
    side === "text"
      ? `${keypad.id} is a ${named.text} here, and a ${recorded.text} in its record: name the model that hangs there, or record that it was replaced`
      : `this is the record of a ${recorded.text}, and ${keypad.id} is a ${named.text} in the text`,
  fixes: ({ keypad, recorded, named }, site) =>
    site.models.has(recorded.text)
      ? [{ title: `The keypad is a ${recorded.text}`, edits: [replace(keypad.file, named, recorded.text)] }]
      : [],
});
