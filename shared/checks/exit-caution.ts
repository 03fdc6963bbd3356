/** A door that people may not get out of, a fire door that does not latch, a gate that moves beside somebody. */
import type { Caution } from "../doors/cautions.ts";
import { cautionsOf } from "../doors/cautions.ts";
import { doorSums } from "../doors/door-sum.ts";
import { whoDecides } from "../doors/words.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

interface Cautioned extends Found {
  readonly caution: Caution;
}

export const exitCaution = check({
  code: "exit-caution",
  severity: "warning",
  explain: {
    what: "An escape route whose exit depends on power or a button, a fire door with a fail-safe strike, a magnet without `release on alarm` or called fail-secure, a battery that keeps a fail-safe lock held, a start contact near people.",
    why: "In a fire, or when the mains fails, people have to get out by what is on the door itself; and whatever starts a gate starts it beside whoever stands there. These are questions to ask, common practice and no source: their silence about a door says nothing. No forces, delays or detectors are worked out. Local code, the maker's instructions and a competent person decide.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Stair" release 5s {
          1 u1
        }
      }

      door "Stair" {
        lock strike 12 V 350 mA fail-secure
        exit button
      //^^^^^^^^^^^ exit-caution
        route escape
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Stair" release 5s {
          1 u1
        }
      }

      door "Stair" {
        lock strike 12 V 350 mA fail-secure
        exit lever
        route escape
      }
    `,
  },
  *find(site): Iterable<Cautioned> {
    for (const door of doorSums(site)) {
      for (const caution of cautionsOf(door)) {
        const { battery } = caution;
        const related = battery ? [{ ...at(battery.file, battery), message: "the battery" }] : [];
        yield { ...at(door.file, caution), related, caution };
      }
    }
  },
  message: ({ caution }) => `${caution.text}; ${whoDecides}`,
});
