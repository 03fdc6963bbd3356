/** A slot that the model does not have. */
import type { Span } from "../../grammar/tree.ts";
import type { Fix } from "../finding.ts";
import type { Model } from "../keypad/model.ts";
import { bandOf, isNumbered, numbersAllRelay } from "../keypad/slot-key.ts";
import { slotText } from "../keypad/slot-text.ts";
import type { Keypad, Placement } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { replace } from "./edits.ts";
import { nextFreeSlot } from "./free-slot.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";

interface Outside extends Found {
  readonly inRecord?: never;
  readonly keypad: Keypad;
  readonly model: Model;
  readonly number: Span;
  readonly placement?: Placement;
}

export const slotRange = check({
  code: "slot-range",
  severity: "error",
  explain: {
    what: "A slot number outside the slots that the model has.",
    why: "The keypad refuses the entry, or reads the digits as something else: the holder stands in front of a closed door.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          4 u2
        //^ slot-range
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
          3 u2
        }
      }
    `,
  },
  *find(site): Iterable<Outside | InRecord> {
    for (const keypad of site.keypads.values()) {
      const model = keypad.model;
      if (!model || !isNumbered(model)) continue;
      for (const placement of keypad.placements) {
        const number = placement.node.slot;
        if (!number || placement.slot === undefined || bandOf(model, placement.slot)) continue;
        yield { ...at(keypad.file, number), ...only(keypad), keypad, model, number, placement };
      }
      if (!numbersAllRelay(model)) continue;
      for (const { node, number } of keypad.allRelay) {
        if (!node.number || number === undefined || bandOf(model, number)) continue;
        yield { ...at(keypad.file, node.number), ...only(keypad), keypad, model, number: node.number };
      }
    }
    yield* inRecords(site, "slot-range");
  },
  message: found => (found.inRecord ? found.inRecord.message : `${found.model.id} has slots ${bandsWords(found.model)}, and no other`),
  fixes: (found): readonly Fix[] => {
    const free = !found.inRecord && found.placement ? nextFreeSlot(found.placement) : undefined;
    if (found.inRecord || free === undefined) return [];
    const text = slotText(found.keypad.model, free);
    return [{ title: `Move to slot ${text}`, edits: [replace(found.file, found.number, text)], preferred: true }];
  },
});

/** `00 to 59`, `001 to 099 and 100 to 499`. */
function bandsWords(model: Model): string {
  return model.slots.bands.map(({ from, to }) => `${slotText(model, from)} to ${slotText(model, to)}`).join(" and ");
}
