/** A release time, or the value of a setting, outside what the model takes. */
import type { Span } from "../../grammar/tree.ts";
import type { Model } from "../keypad/model.ts";
import type { KeypadRelay } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";

interface Outside extends Found {
  readonly inRecord?: never;
  readonly words: string;
}

export const settingRange = check({
  code: "setting-range",
  severity: "error",
  explain: {
    what: "A release time, or the value of a setting, outside what the model takes.",
    why: "The keypad refuses the entry, or does something that nobody asked for: the door stays open for another time than the text says.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" release 30s {
                     //^^^^^^^^^^^ setting-range
          1 u1
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" release 5s {
          1 u1
        }
      }
    `,
  },
  *find(site): Iterable<Outside | InRecord> {
    for (const keypad of site.keypads.values()) {
      const model = keypad.model;
      if (!model) continue;
      for (const relay of keypad.relays) {
        const span = relay.node.release && outsideRelease(model, relay) ? relay.node.release : undefined;
        if (span) yield { ...at(keypad.file, span), ...only(keypad), words: releaseWords(model, relay) };
      }
      for (const { label, value, span } of keypad.settings) {
        const setting = model.settings.get(label);
        if (!setting || value === undefined || (setting.min <= value && value <= setting.max)) continue;
        const fact = keypad.node.facts.find(one => one.start === span.start);
        const place: Span = (fact?.kind === "setting" ? fact.value : undefined) ?? span;
        yield { ...at(keypad.file, place), ...only(keypad), words: `"${label}" of ${model.id} goes from ${setting.min} to ${setting.max}` };
      }
    }
    yield* inRecords(site, "setting-range", "release-range");
  },
  message: found => (found.inRecord ? found.inRecord.message : found.words),
});

/** Where the model does not say how long a release may be, whether one can be typed is the planner's question. */
function outsideRelease(model: Model, relay: KeypadRelay): boolean {
  const { release } = model;
  if (!release || relay.release === undefined) return false;
  if (relay.release === "toggle") return release.toggle === undefined;
  return relay.release < release.min || release.max < relay.release;
}

function releaseWords(model: Model, relay: KeypadRelay): string {
  if (relay.release === "toggle") return `${model.id} cannot hold a relay until a code is keyed again`;
  return `a release of ${model.id} lasts ${model.release?.min} to ${model.release?.max} seconds`;
}
