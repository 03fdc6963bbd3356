/** A slot's number that is missing, that no place has, or that is not written as it is typed. */
import type { Span } from "../../grammar/tree.ts";
import type { Fix } from "../finding.ts";
import type { Model } from "../keypad/model.ts";
import { bandOf, isNumbered, numbersAllRelay } from "../keypad/slot-key.ts";
import { slotText } from "../keypad/slot-text.ts";
import type { Keypad, Placement } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { insert, replace, textOf } from "./edits.ts";
import { nextFreeSlot } from "./free-slot.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";

interface NumberFound extends Found {
  readonly inRecord?: never;
  readonly keypad: Keypad;
  readonly model: Model;
  readonly is: "missing" | "too much" | "narrow";
  readonly placement?: Placement;
  readonly number?: Span & { readonly text: string };
}

export const slotNumber = check({
  code: "slot-number",
  severity: "error",
  exceptions: "hint where a number is not written at full width",
  explain: {
    what: "A slot's number is missing, stands where the memory has no numbers, or is not written at full width.",
    why: "Where the model numbers its places, an entry without a number cannot be typed; where the keypad finds its own place, a number would be typed into the code. A number that is not written at full width is typed with zeros in front all the same.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          u2
        //^^ slot-number
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
  *find(site): Iterable<NumberFound | InRecord> {
    for (const keypad of site.keypads.values()) {
      const model = keypad.model;
      if (!model) continue;
      const numbered = isNumbered(model);
      for (const placement of keypad.placements) {
        const number = placement.node.slot;
        if (number ? numbered && !isNarrow(model, number.text) : !numbered) continue;
        const common = { ...only(keypad), keypad, model, placement };
        if (!number) yield { ...common, ...at(keypad.file, placement.node), is: "missing" };
        else if (!numbered) yield { ...common, ...at(keypad.file, number), is: "too much", number };
        else yield { ...common, ...at(keypad.file, number), is: "narrow", number, severity: "hint" };
      }
      for (const { node } of keypad.allRelay) {
        const number = node.number;
        const common = { ...only(keypad), keypad, model };
        if (!number && numbersAllRelay(model)) yield { ...common, ...at(keypad.file, node.keyword), is: "missing" };
        else if (number && !numbersAllRelay(model)) yield { ...common, ...at(keypad.file, number), is: "too much", number };
        else if (number && isNarrow(model, number.text))
          yield { ...common, ...at(keypad.file, number), is: "narrow", number, severity: "hint" };
      }
    }
    yield* inRecords(site, "slot-number");
  },
  message: found => {
    if (found.inRecord) return found.inRecord.message;
    const { is, model, keypad, number, placement } = found;
    const allRelay = placement === undefined;
    if (is === "narrow") return `slot ${slotText(keypad.model, Number(number?.text))} is not written at full width`;
    if (is === "missing") return allRelay ? `${model.id} keeps all-relay codes by number` : `${model.id} has numbered slots: which one?`;
    return allRelay ? `${model.id} has one all-relay code, without a number` : `${model.id} has no slot numbers: it finds its own place`;
  },
  fixes: (found, site): readonly Fix[] => {
    if (found.inRecord) return [];
    const { is, keypad, placement, number, file } = found;
    if (is === "narrow" && number) {
      const text = slotText(keypad.model, Number(number.text));
      return [{ title: `Write ${text}`, edits: [replace(file, number, text)], safe: true, preferred: true }];
    }
    if (is === "too much" && number) {
      const blanks = /^[ \t]*/.exec(textOf(site, file).slice(number.end))?.[0].length ?? 0;
      return [
        {
          title: "Remove the number",
          edits: [replace(file, { start: number.start, end: number.end + blanks }, "")],
          safe: true,
          preferred: true,
        },
      ];
    }
    const free = placement && nextFreeSlot(placement);
    if (!placement || free === undefined) return [];
    const text = slotText(keypad.model, free);
    return [{ title: `Put into slot ${text}`, edits: [insert(file, placement.node.start, `${text} `)], preferred: true }];
  },
});

/** Written with another count of digits than the keypad wants typed, and a slot that there is. */
function isNarrow(model: Model, text: string): boolean {
  const { width } = model.slots;
  if (!bandOf(model, Number(text))) return false;
  return width === undefined ? text !== String(Number(text)) : text.length !== width;
}
