/** A code where the model keeps tags, a tag where it keeps codes, either where it keeps all-relay codes. */
import type { Word } from "../../grammar/tree.ts";
import type { Fix } from "../finding.ts";
import type { Model, SlotKind } from "../keypad/model.ts";
import { bandOf, isNumbered, numbersAllRelay } from "../keypad/slot-key.ts";
import { slotText } from "../keypad/slot-text.ts";
import type { Keypad, Placement } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { replace } from "./edits.ts";
import { kindsOf, nextFreeSlot } from "./free-slot.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";

interface WrongKind extends Found {
  readonly inRecord?: never;
  readonly keypad: Keypad;
  readonly model: Model;
  readonly number: Word;
  readonly kept: SlotKind;
  readonly is: SlotKind;
  readonly placement?: Placement;
}

export const slotKind = check({
  code: "slot-kind",
  severity: "error",
  explain: {
    what: "A code, a tag or an all-relay code in a range of slots that is kept for another kind.",
    why: "The keypad refuses the entry. Each range of the model's `slots` line may be kept for codes, for tags or for all-relay codes.",
    triggers: mullion`
      model wader "Ranges by kind" {
        relays 1 = 1
        slots 01..09 codes, 10..19 tags shared
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        put tag 2 {slot} [present tag] #
        clear slot 3 {slot} #
        set installer 4 {code} {code} #
        open code {code}
        open tag [present tag]
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829 tag 8061261
      keypad gate "Gate" : wader {
        installer code 6044
        relay 1 "Gate" {
          01 u1
          02 u1.tag
        //^^ slot-kind
        }
      }
    `,
    quiet: mullion`
      model wader "Ranges by kind" {
        relays 1 = 1
        slots 01..09 codes, 10..19 tags shared
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        put tag 2 {slot} [present tag] #
        clear slot 3 {slot} #
        set installer 4 {code} {code} #
        open code {code}
        open tag [present tag]
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829 tag 8061261
      keypad gate "Gate" : wader {
        installer code 6044
        relay 1 "Gate" {
          01 u1
          10 u1.tag
        }
      }
    `,
  },
  *find(site): Iterable<WrongKind | InRecord> {
    for (const keypad of site.keypads.values()) {
      const model = keypad.model;
      if (!model || !isNumbered(model) || !model.slots.bands.some(band => band.kept)) continue;
      for (const placement of keypad.placements) {
        const number = placement.node.slot;
        const kept = placement.slot === undefined ? undefined : bandOf(model, placement.slot)?.kept;
        const is = kept && [...kindsOf(placement)].find(kind => kind !== kept);
        if (number && kept && is) yield { ...at(keypad.file, number), ...only(keypad), keypad, model, number, kept, is, placement };
      }
      if (!numbersAllRelay(model)) continue;
      for (const { node, number } of keypad.allRelay) {
        const band = number === undefined ? undefined : bandOf(model, number);
        if (!node.number || !band?.kept || band.kept === "all-relay") continue;
        yield { ...at(keypad.file, node.number), ...only(keypad), keypad, model, number: node.number, kept: band.kept, is: "all-relay" };
      }
    }
    yield* inRecords(site, "slot-kind");
  },
  message: found => {
    if (found.inRecord) return found.inRecord.message;
    return `slot ${found.number.text} of ${found.model.id} is kept for ${words[found.kept]}, and this is ${one[found.is]}`;
  },
  fixes: (found): readonly Fix[] => {
    const free = !found.inRecord && found.placement ? nextFreeSlot(found.placement) : undefined;
    if (found.inRecord || free === undefined) return [];
    const text = slotText(found.keypad.model, free);
    return [{ title: `Move to slot ${text}`, edits: [replace(found.file, found.number, text)], preferred: true }];
  },
});

const words = { codes: "codes", tags: "tags", "all-relay": "all-relay codes" } as const;
const one = { codes: "a code", tags: "a tag", "all-relay": "an all-relay code" } as const;
