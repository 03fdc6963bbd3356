/** A lock that is let go again before anybody can push the door. */
import { doorsOf } from "../doors/resolve.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

/** Seconds. Source: IEC 60839-11-1 as a supplier's page quotes it; not read in the standard itself. */
const shortest = 3;

interface Short extends Found {
  readonly door: string;
  readonly lock: string;
  readonly seconds: number;
}

export const releaseShort = check({
  code: "release-short",
  severity: "warning",
  explain: {
    what: "A strike, magnet or bolt is released for less than 3 s.",
    why: "Whoever is slow, carries something or pushes a pram stands in front of a door that has locked again. The limit of 3 s is that of IEC 60839-11-1 as others quote it. Local code, the maker's instructions and a competent person decide.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" release 2s {
                          //^^^^^^^^^^ release-short
          1 u1
        }
      }

      door "Foot gate" {
        lock strike 12 V 350 mA fail-secure
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" release 3s {
          1 u1
        }
      }

      door "Foot gate" {
        lock strike 12 V 350 mA fail-secure
      }
    `,
  },
  *find(site): Iterable<Short> {
    for (const door of doorsOf(site)) {
      if (door.lock !== "strike" && door.lock !== "magnet" && door.lock !== "bolt") continue;
      for (const relay of door.relays) {
        const seconds = relay.release;
        if (typeof seconds !== "number" || seconds >= shortest) continue;
        const place = relay.node.release ?? relay.node;
        yield { ...at(relay.keypad.file, place), door: door.label, lock: door.lock, seconds };
      }
    }
  },
  message: ({ door, lock, seconds }) =>
    `the ${lock} of ${door} is released for ${seconds} s, less than the 3 s of IEC 60839-11-1: local code, the maker's instructions and a competent person decide`,
});
