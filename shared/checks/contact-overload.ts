/** A relay whose contact switches more than it is rated for. */
import { contactAssumption } from "../doors/assumed.ts";
import type { ContactSum, DoorSum } from "../doors/door-sum.ts";
import { doorSums } from "../doors/door-sum.ts";
import { ampsWords, assumedWords, heldAgainst, voltsWords, whoDecides } from "../doors/words.ts";
import type { Found } from "./check.ts";
import { at, check, mullion } from "./check.ts";

interface Overload extends Found {
  readonly door: DoorSum;
  readonly contact: ContactSum;
}

export const contactOverload = check({
  code: "contact-overload",
  severity: "warning",
  explain: {
    what: "The current, the inrush or the voltage of a lock is more than the contact of its relay is rated for.",
    why: "The contact burns or welds, and a welded contact leaves the door open, or shut. A coil makes it worse: it throws its energy back when it is switched off, so that it needs a diode across a d.c. lock or a varistor across an a.c. one, as its maker says. The model says what its contacts stand (`contact 2 A 30 V`), taken to hold for the lock's kind of current. Local code, the maker's instructions and a competent person decide.",
    triggers: mullion`
      model wader "One relay" {
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        contact 1 A 30 V
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        clear slot 3 {slot} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : wader {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
      }

      door "Foot gate" {
        lock bolt 12 V 400 mA 1.5 A inrush fail-safe
      //^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ contact-overload
      }
    `,
    quiet: mullion`
      model wader "One relay" {
        relays 1 = 1
        slots 1..3 per relay
        codes 4 digits
        contact 2 A 30 V
        enter * {installer} #
        leave * *
        put code 1 {slot} {code} #
        clear slot 3 {slot} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : wader {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
      }

      door "Foot gate" {
        lock bolt 12 V 400 mA 1.5 A inrush fail-safe
      }
    `,
  },
  *find(site): Iterable<Overload> {
    for (const door of doorSums(site)) {
      for (const contact of door.contacts) {
        if (contact.over.length === 0) continue;
        const { relay, keypad } = contact;
        const related = [
          { ...at(keypad.file, relay.node.label ?? relay.node.keyword), message: `the relay of ${keypad.label} that switches it` },
        ];
        yield { ...at(door.file, door.lock.span ?? door.node.keyword), related, door, contact };
      }
    }
  },
  message: ({ door, contact }) => {
    const { rated, over, keypad, relay } = contact;
    const parts = over.map(what => {
      if (what === "volts") return heldAgainst(voltsWords, contact.volts ?? 0, rated?.volts ?? 0)[0];
      const amps = (what === "amps" ? contact.amps : contact.inrushAmps) ?? 0;
      return `${heldAgainst(ampsWords, amps, rated?.amps ?? 0)[0]}${what === "inrush" ? " of inrush" : ""}`;
    });
    const lock = door.lock.kind ?? "lock";
    const across = door.lock.current === "AC" ? "a varistor across it" : "a diode across it";
    const coil = door.lock.kind === "start contact" ? "" : `; the coil needs suppression besides (${across}, as its maker says)`;
    const limit = `${ampsWords(rated?.amps ?? 0)}${rated?.volts === undefined ? "" : ` ${voltsWords(rated.volts)}`}`;
    const assumed = assumedWords([contactAssumption]);
    return `the ${lock} of ${door.label} puts ${parts.join(" and ")} on relay ${relay.set} of ${keypad.label}, more than the ${limit} that its contact is rated for${coil}${assumed}; ${whoDecides}`;
  },
});
