/** A contact that stays closed longer than what it works was made for. */
import { doorsOf, says } from "../doors/resolve.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

/** Seconds that a start contact is held at most; common practice, no source. */
const longest = 2;

interface Long extends Found {
  readonly door: string;
  readonly onto: "start contact" | "escape route";
  readonly release: number | "toggle";
}

export const releaseLong = check({
  code: "release-long",
  severity: "warning",
  explain: {
    what: "A start contact is held for more than 2 s, or toggles; or the door of an escape route toggles.",
    why: "A gate operator may take a contact that stays closed for a second start, or not close again while it lasts; a relay that toggles leaves the door as the last person left it. The limit of 2 s is common practice and has no source. Local code, the maker's instructions and a competent person decide.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Vehicle gate" release 5s {
                             //^^^^^^^^^^ release-long
          1 u1
        }
      }

      door "Vehicle gate" {
        lock start contact stays
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Vehicle gate" release 1s {
          1 u1
        }
      }

      door "Vehicle gate" {
        lock start contact stays
      }
    `,
  },
  *find(site): Iterable<Long> {
    for (const door of doorsOf(site)) {
      for (const relay of door.relays) {
        const { release } = relay;
        const start = door.lock === "start contact" && (release === "toggle" || (release ?? 0) > longest);
        const toggles = release === "toggle" && says(door.node, "route", "escape") !== undefined;
        if (release === undefined || !(start || toggles)) continue;
        const place = relay.node.release ?? relay.node;
        yield { ...at(relay.keypad.file, place), door: door.label, onto: start ? "start contact" : "escape route", release };
      }
    }
  },
  message: ({ door, onto, release }) => {
    const who = "local code, the maker's instructions and a competent person decide";
    if (onto === "escape route") return `${door} is on an escape route and its relay toggles: ${who}`;
    if (release === "toggle")
      return `${door} has a start contact and its relay toggles: a start contact is held for at most 2 s (common practice); ${who}`;
    return `the start contact of ${door} is held for ${release} s, more than 2 s (common practice): ${who}`;
  },
});
