/** A supply that feeds more than it gives. */
import type { SupplySum } from "../doors/supply-sum.ts";
import { supplySums } from "../doors/supply-sum.ts";
import { ampsWords, assumedWords, heldAgainst, whoDecides } from "../doors/words.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

interface Overload extends Found {
  readonly supply: SupplySum;
}

export const supplyOverload = check({
  code: "supply-overload",
  severity: "warning",
  explain: {
    what: "Everything that a supply feeds takes more, all at once, than the supply gives.",
    why: "Its voltage falls or it switches off: the locks that need power to hold let go, the others do not open, and the keypad may start anew in the middle of a code. Counted are the current of every lock, as if all took it at once, and what each keypad draws where its model says so; not counted is what the supply takes to charge its battery. Local code, the maker's instructions and a competent person decide.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" release 5s {
          1 u1
        }
      }

      door "Foot gate" {
        lock bolt 12 V 1.2 A fail-safe
      }

      supply cupboard "Riser cupboard" 12 V 1 A {
                                          //^^^ supply-overload
        feeds "Foot gate", keypad gate
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

      door "Foot gate" {
        lock bolt 12 V 1.2 A fail-safe
      }

      supply cupboard "Riser cupboard" 12 V 2 A {
        feeds "Foot gate", keypad gate
      }
    `,
  },
  *find(site): Iterable<Overload> {
    for (const supply of supplySums(site)) {
      if (!supply.over) continue;
      const place = supply.ampsSpan ?? supply.node.keyword;
      const related = supply.feeds
        .filter(fed => fed.amps !== undefined && fed.amps > 0)
        .map(({ file, start, end, amps }) => ({ file, start, end, message: `takes ${ampsWords(amps ?? 0)}` }));
      yield { ...at(supply.file, place), related, supply };
    }
  },
  message: ({ supply }) => {
    const [total, limit] = heldAgainst(ampsWords, supply.totalAmps, supply.amps ?? 0);
    const parts = supply.feeds.flatMap(fed => (fed.amps ? [`${fed.label} ${ampsWords(fed.amps)}`] : []));
    const unknown = supply.unknown.length === 0 ? "" : `; not counted: ${supply.unknown.join(", ")}`;
    const ofBattery = supply.batterySum?.assumed ?? [];
    const assumed = supply.assumed.filter(one => !ofBattery.includes(one));
    return `what ${supply.label} feeds takes ${total} all at once, more than its ${limit} (${parts.join(", ")})${unknown}${assumedWords(assumed)}; ${whoDecides}`;
  },
});
