/** A lock that gets fewer volts than it works with, or more than it stands. */
import { contactAssumption } from "../doors/assumed.ts";
import type { AtLock, DoorSum } from "../doors/door-sum.ts";
import { doorSums } from "../doors/door-sum.ts";
import { ampsWords, assumedWords, cableWords, heldAgainst, voltsWords, whoDecides } from "../doors/words.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

interface Volts extends Found {
  readonly door: DoorSum;
  /** Undefined: the supply has another kind of current. */
  readonly verdict?: DoorSum["verdicts"][number];
}

export const lockVolts = check({
  code: "lock-volts",
  severity: "warning",
  explain: {
    what: "A lock gets fewer volts than it takes when the battery is at its end, or more on mains; or a lock is on a supply of the other kind of current.",
    why: "Too few, and the lock does not let go in the hour when the mains is off; too many, and its coil grows hot. The volts at the lock are the supply's less what both conductors of the cable take: resistance by the tables of IEC 60228, or by the wire gauge of ASTM B258, at 20 °C unless said, and 1 + 0.00393 (T − 20) of it at another temperature (IEC 60028; IEC 60228's own factor, 250 / (230 + T) back to 20 °C, differs by less than 0.3 % up to 70 °C). A lock takes the same current whatever its voltage unless it is said to be `resistive`. A battery is at its end at 1.8 V a cell unless `down to` says otherwise, and a lock takes 10 % either way unless `within` does. Local code, the maker's instructions and a competent person decide.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Foot gate" release 5s {
          1 u1
        }
      }

      door "Foot gate" {
        lock strike 12 V 500 mA fail-secure within 15 %
      //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ lock-volts
        cable 60 m 0.75 mm2
      }

      supply cupboard "Riser cupboard" 13.8 V 3 A {
        battery 12 V 7 Ah for 4 h
        feeds "Foot gate"
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
        lock strike 12 V 500 mA fail-secure within 15 %
        cable 14 m 0.75 mm2
      }

      supply cupboard "Riser cupboard" 13.8 V 3 A {
        battery 12 V 7 Ah for 4 h
        feeds "Foot gate"
      }
    `,
  },
  *find(site): Iterable<Volts> {
    for (const door of doorSums(site)) {
      const place = at(door.file, door.lock.span ?? door.node.keyword);
      const supply = door.fedBy[0];
      if (!supply) continue;
      const related = [
        { ...at(supply.file, supply.node.keyword), message: `${supply.label} feeds it` },
        ...(door.cable ? [{ ...at(door.file, door.cable.span), message: "the cable" }] : []),
      ];
      if (door.wrongCurrent) yield { ...place, related, door };
      for (const verdict of door.verdicts) yield { ...place, related, door, verdict };
    }
  },
  message: ({ door, verdict }) => {
    const lock = `the ${door.lock.kind ?? "lock"} of ${door.label}`;
    const supply = door.fedBy[0];
    if (!verdict || !door.limits) {
      const [asks, gives] = door.lock.current === "AC" ? ["a.c.", "d.c."] : ["d.c.", "a.c."];
      const why = supply?.battery && gives === "d.c." ? "has a battery and so is d.c." : `is ${gives}`;
      const volts = door.lock.ratedVolts === undefined ? "" : `${voltsWords(door.lock.ratedVolts)} `;
      return `${lock} asks for ${volts}${asks}, and ${supply?.label} ${why}; ${whoDecides}`;
    }
    const [volts, limit] = heldAgainst(voltsWords, verdict.volts, verdict.limit);
    const when = verdict.by === "battery" ? " at the end of the battery" : " on mains";
    const than = verdict.is === "low" ? "less than" : "more than";
    const sign = verdict.is === "low" ? "less" : "and";
    const rated = `its rated ${voltsWords(door.lock.ratedVolts ?? 0)} ${sign} ${door.limits.tolerancePercent} %`;
    const sum = sumWords(door, verdict.by === "battery" ? door.atBatteryEnd : door.onMains);
    const assumed = door.assumed.filter(one => one !== contactAssumption);
    return `${lock} gets ${volts}${when}, ${than} ${limit}, ${rated}${sum}${assumedWords(assumed)}; ${whoDecides}`;
  },
});

/** How the volts at the lock came about. */
function sumWords(door: DoorSum, at: AtLock | undefined): string {
  if (!at || !door.cable) return ", the cable not counted";
  const { amps, dropVolts } = at.lost;
  const load = door.lock.load === "coil" ? ", a plain coil" : "";
  return ` (${voltsWords(at.supplyVolts)} less ${voltsWords(dropVolts)} over ${cableWords(door.cable)} at ${ampsWords(amps)}${load})`;
}
