/** Two entries in one slot: the later silently replaces the earlier. */
import type { Span } from "../../grammar/tree.ts";
import type { Fix } from "../finding.ts";
import { isNumbered, slotKey } from "../keypad/slot-key.ts";
import { slotText } from "../keypad/slot-text.ts";
import type { AllRelayPlace, Keypad, Placement } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { remove, replace } from "./edits.ts";
import { nextFreeSlot } from "./free-slot.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";
import { whose } from "./words.ts";

interface Clash extends Found {
  readonly inRecord?: never;
  readonly keypad: Keypad;
  readonly first: Placement | AllRelayPlace;
  readonly again: Placement | AllRelayPlace;
  /** Number as written; undefined where places have none. */
  readonly slot?: string;
  readonly where: string;
  readonly numberAt?: Span;
}

export const slotClash = check({
  code: "slot-clash",
  severity: "error",
  explain: {
    what: "Two entries in one slot.",
    why: "At the keypad the later one silently replaces the earlier, or is refused: one of the two holders stands in front of a closed door.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          1 u2
        //^ slot-clash
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
  *find(site): Iterable<Clash | InRecord> {
    for (const keypad of site.keypads.values()) {
      const model = keypad.model;
      if (!model) continue;
      const taken = new Map<string, Placement>();
      for (const again of keypad.placements) {
        const { relay, slot } = again;
        if (model.slots.addressing === "unnumbered" || (isNumbered(model) && slot === undefined)) continue;
        const key = slotKey(model, relay.set, slot);
        const first = taken.get(key);
        if (!first) {
          taken.set(key, again);
          continue;
        }
        const number = isNumbered(model) ? again.node.slot : undefined;
        yield {
          ...at(keypad.file, number ?? again.node),
          ...only(keypad),
          related: [{ ...at(keypad.file, first.node.slot ?? first.node), message: `${whose(first)} is there` }],
          keypad,
          first,
          again,
          where: model.slots.addressing === "shared" ? keypad.label : (relay.label ?? `relay ${relay.set}`),
          ...(number ? { slot: number.text, numberAt: number } : {}),
        };
      }
      yield* allRelayClashes(keypad);
    }
    yield* inRecords(site, "slot-clash");
  },
  message: found => {
    if (found.inRecord) return found.inRecord.message;
    const { slot, where, first, again } = found;
    const holder = whose(first);
    if (!("relay" in again))
      return slot === undefined ? `the all-relay code is already ${holder}` : `all-relay code ${slot} is already ${holder}`;
    return slot === undefined ? `${where} has one place, and ${holder} is in it` : `slot ${slot} of ${where} already holds ${holder}`;
  },
  fixes: (found, site): readonly Fix[] => {
    const fixes: Fix[] = [];
    if (found.inRecord) return fixes;
    const { keypad, first, again, numberAt } = found;
    if (!("relay" in again) || !("relay" in first)) return fixes;
    const holds = keypad.model?.slots.holds ?? "one";
    const [one, other] = [first.held[0], again.held[0]];
    const pairs = one?.credential && other?.credential && one.credential.kind !== other.credential.kind && one.holder === other.holder;
    if (holds !== "one" && pairs && first.held.length === 1 && again.held.length === 1) {
      const word = holds === "code or tag" ? "or" : "with";
      fixes.push({
        title: `Put both into the one slot: ${one.credential.path} ${word} ${other.credential.path}`,
        edits: [
          replace(keypad.file, one.node, `${one.credential.path} ${word} ${other.credential.path}`),
          remove(site, keypad.file, again.node),
        ],
      });
    }
    const free = numberAt && nextFreeSlot(again);
    if (numberAt && free !== undefined) {
      const text = slotText(keypad.model, free);
      fixes.push({ title: `Move to slot ${text}`, edits: [replace(keypad.file, numberAt, text)], preferred: true });
    }
    return fixes;
  },
});

function* allRelayClashes(keypad: Keypad): Iterable<Clash> {
  const taken = new Map<string, AllRelayPlace>();
  for (const again of keypad.allRelay) {
    // The same fact word for word is an error of the grammar; one number in two spellings is found here.
    const key = String(again.number ?? "");
    const first = taken.get(key);
    if (!first) {
      taken.set(key, again);
      continue;
    }
    if (first.node.number?.text === again.node.number?.text) continue;
    yield {
      ...at(keypad.file, again.node.number ?? again.node.keyword),
      ...only(keypad),
      related: [{ ...at(keypad.file, first.node.number ?? first.node.keyword), message: `${whose(first)} is there` }],
      keypad,
      first,
      again,
      where: keypad.label,
      ...(again.node.number ? { slot: again.node.number.text } : {}),
    };
  }
}
