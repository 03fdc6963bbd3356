/** More wanted than the memory holds, or little left of it. */
import type { Span } from "../../grammar/tree.ts";
import type { Model } from "../keypad/model.ts";
import { isNumbered } from "../keypad/slot-key.ts";
import type { Keypad } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { wantedOf } from "./wanted.ts";
import { relayWords } from "./words.ts";

/** Memories of fewer places are filled up as a matter of course. */
const worthWatching = 50;

interface Full extends Found {
  readonly where: string;
  readonly used: number;
  readonly places: number;
}

export const memoryFull = check({
  code: "memory-full",
  severity: "error",
  exceptions: "warning where less than a tenth of 50 places or more is left",
  needsOpen: true,
  explain: {
    what: "More is wanted than the keypad's memory holds, or less than a tenth of a memory of 50 places and more is left.",
    why: "A full keypad refuses the next entry. Little left is the moment to take out who has moved away, or to think of another keypad. A tenth left, on keypads of 50 places and more, is our choice.",
    triggers: mullion`
      model wader "Finds its own place" {
        relays 1 = 1
        slots 2 unnumbered
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {code} #
        clear code 3 {code} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591
      holder u3 "Unit 3" code 7304
      keypad gate "Gate" : wader {
           //^^^^ memory-full
        installer code 6044
        relay 1 "Gate" { u1 u2 u3 }
      }
    `,
    quiet: mullion`
      model wader "Finds its own place" {
        relays 1 = 1
        slots 2 unnumbered
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {code} #
        clear code 3 {code} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829
      holder u2 "Unit 2" code 5591
      keypad gate "Gate" : wader {
        installer code 6044
        relay 1 "Gate" { u1 u2 }
      }
    `,
  },
  *find(site): Iterable<Full> {
    for (const keypad of site.keypads.values()) {
      if (!keypad.model) continue;
      for (const { span, where, used, places } of memoriesOf(keypad, keypad.model)) {
        const left = places - used;
        const found = { ...at(keypad.file, span), ...only(keypad), where, used, places };
        if (left < 0) yield found;
        else if (places >= worthWatching && left * 10 < places) yield { ...found, severity: "warning" };
      }
    }
  },
  message: ({ where, used, places }) =>
    used > places
      ? `${used} are wanted in ${where}, which has ${places} places`
      : `${places - used} of the ${places} places of ${where} are left`,
});

interface MemoryUse {
  readonly span: Span;
  readonly where: string;
  readonly used: number;
  readonly places: number;
}

/** The memories that a keypad has: one, one for each relay, one for each kind that a range is kept for. */
function memoriesOf(keypad: Keypad, model: Model): readonly MemoryUse[] {
  const name = keypad.node.name ?? keypad.node.keyword;
  const wanted = wantedOf(keypad, model);
  const { addressing, bands, capacity } = model.slots;
  if (addressing === "unnumbered") return [{ span: name, where: keypad.label, used: wanted.slots.size, places: capacity }];
  if (!isNumbered(model)) return [];
  const numbers = [...wanted.slots.values()].map(slot => ({ fires: slot.fires ?? "", number: slot.number ?? -1 }));
  for (const { number } of wanted.allRelay.values()) if (number !== undefined) numbers.push({ fires: "", number });
  const relays = addressing === "shared" ? [undefined] : keypad.relays;
  const kinds = [...new Set(bands.map(band => band.kept))];
  return relays.flatMap(relay =>
    kinds.flatMap((kept): readonly MemoryUse[] => {
      if (kept === "all-relay" && relay !== undefined) return [];
      const own = bands.filter(band => band.kept === kept);
      const used = numbers.filter(
        ({ fires, number }) => (relay === undefined || fires === relay.set) && own.some(band => band.from <= number && number <= band.to),
      ).length;
      const places = own.reduce((sum, band) => sum + band.to - band.from + 1, 0);
      const whole = relay ? relayWords(relay) : keypad.label;
      const where = kept === undefined ? whole : `${whole} for ${kept === "all-relay" ? "all-relay codes" : kept}`;
      return [{ span: relay?.node.numbers[0] ?? name, where, used, places }];
    }),
  );
}
