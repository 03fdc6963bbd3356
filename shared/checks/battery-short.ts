/** A battery that does not last as long as is asked of it. */
import type { SupplySum } from "../doors/supply-sum.ts";
import { supplySums } from "../doors/supply-sum.ts";
import { ampHoursWords, ampsWords, assumedWords, heldAgainst, hoursWords, rounded, voltsWords, whoDecides } from "../doors/words.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

interface Short extends Found {
  readonly supply: SupplySum;
}

export const batteryShort = check({
  code: "battery-short",
  severity: "warning",
  explain: {
    what: "A battery holds less than the hours asked of it take, or is of more volts than its supply can charge.",
    why: "The mains stays off longer than the door works. Needed is 1.25 × (what is always on × the hours + D × what takes power only to open × half an hour): the ageing factor of 1.25, and D, 1.75 for a load above a twentieth of the capacity and otherwise 1, are borrowed from fire alarm practice (BS 5839-1, Annex E). A lock that is not said to be fail-secure or to stay as it is counts as always on. How long a new battery lasts is Peukert's law in its form for a rated time, H × (C / (I × H))^k, with H = 20 h and k = 1.2; the older form for one hour, C / I^k, promises something else and is wrong for a label that says C20. Local code, the maker's instructions and a competent person decide.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" release 5s {
          1 u1
        }
      }

      door "Foot gate" {
        lock bolt 12 V 600 mA
      }

      supply cupboard "Riser cupboard" 12.6 V 2 A {
        battery 12 V 2.3 Ah for 8 h
      //^^^^^^^^^^^^^^^^^^^^^^^^^^^ battery-short
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
        lock bolt 12 V 600 mA fail-secure
      }

      supply cupboard "Riser cupboard" 12.6 V 2 A {
        battery 12 V 2.3 Ah for 8 h
        feeds "Foot gate", keypad gate
      }
    `,
  },
  *find(site): Iterable<Short> {
    for (const supply of supplySums(site)) {
      if (supply.battery && supply.batterySum && supply.batterySum.short.length > 0) {
        yield { ...at(supply.file, supply.battery.fact), supply };
      }
    }
  },
  message: ({ supply }) => {
    const unknown = supply.unknown.length === 0 ? "" : `; not counted: ${supply.unknown.join(", ")}`;
    return `the battery of ${supply.label} ${(supply.batterySum?.short ?? []).map(what => words(supply, what)).join(", and ")}${unknown}${assumedWords(supply.batterySum?.assumed ?? [])}; ${whoDecides}`;
  },
});

function words(supply: SupplySum, what: "capacity" | "hours" | "volts"): string {
  const { needed, lasts, hoursAsked = 0, ampHours = 0, volts = 0 } = supply.batterySum ?? {};
  if (what === "volts") {
    const [own, most] = heldAgainst(voltsWords, volts, supply.volts ?? 0);
    return `is of ${own} and its supply gives ${most}, too few to charge it`;
  }
  if (what === "capacity" && needed) {
    const [has, needs] = heldAgainst(ampHoursWords, ampHours, needed.ampHours);
    const opening =
      supply.openingAmps > 0
        ? ` + D ${rounded(needed.d, 2)} × ${ampsWords(supply.openingAmps)} × ${hoursWords(needed.openingHours)} of opening`
        : "";
    const sum = `${rounded(needed.ageing, 2)} for age × (${ampsWords(supply.standingAmps)} × ${hoursWords(hoursAsked)}${opening})`;
    return `holds ${has}, less than the ${needs} that ${hoursWords(hoursAsked)} take: ${sum}`;
  }
  const [holds, asked] = heldAgainst(hoursWords, lasts?.hours ?? 0, hoursAsked);
  return `lasts ${holds} at ${ampsWords(lasts?.meanAmps ?? 0)} by Peukert's law when new, less than the ${asked} asked`;
}
