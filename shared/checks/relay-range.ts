/** A relay, or a set of relays, that the model does not have. */
import type { Span } from "../../grammar/tree.ts";
import type { Fix } from "../finding.ts";
import type { Model } from "../keypad/model.ts";
import type { KeypadRelay } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { remove } from "./edits.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";

interface NoRelay extends Found {
  readonly inRecord?: never;
  readonly model: Model;
  readonly relay: KeypadRelay;
}

export const relayRange = check({
  code: "relay-range",
  severity: "error",
  explain: {
    what: "A relay or a set of relays that the model does not have.",
    why: "There is nothing to type for it: the model's `relays` line says which relays and sets there are.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
        relay 2 "Porch" spare
            //^ relay-range
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
        }
      }
    `,
  },
  *find(site): Iterable<NoRelay | InRecord> {
    for (const keypad of site.keypads.values()) {
      const model = keypad.model;
      if (!model) continue;
      for (const relay of keypad.relays) {
        if (relay.set === "" || model.relays.has(relay.set) || isSingle(model, relay.set)) continue;
        yield { ...at(keypad.file, numbersOf(relay)), ...only(keypad), model, relay };
      }
    }
    yield* inRecords(site, "relay-range");
  },
  message: found => {
    if (found.inRecord) return found.inRecord.message;
    const { model, relay } = found;
    const sets = [...model.relays.keys()];
    const known = sets.length > 1 ? `${sets.slice(0, -1).join(", ")} and ${sets.at(-1)}` : (sets[0] ?? "none");
    return `${model.id} has no relay ${relay.set.length > 12 ? "of this number" : relay.set}; it has ${known}`;
  },
  fixes: (found, site): readonly Fix[] => {
    if (found.inRecord || found.relay.placements.length > 0) return [];
    return [{ title: "Remove this relay", edits: [remove(site, found.file, found.relay.node)] }];
  },
});

/** A relay that is only typed as part of sets can still be described: labelled, spare. */
function isSingle(model: Model, set: string): boolean {
  return model.relayNumbers.some(number => String(number) === set);
}

/** The numbers of a relay as written. */
export function numbersOf(relay: KeypadRelay): Span {
  const { numbers, keyword } = relay.node;
  return { start: numbers[0]?.start ?? keyword.start, end: numbers.at(-1)?.end ?? keyword.end };
}
