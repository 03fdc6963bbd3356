/** Doors and supplies for machines: volts, amperes, ohms, metres, ampere-hours and hours as numbers; what does not apply is absent. */
import { jsonText } from "../../json-text.ts";
import type { AtLock } from "../door-sum.ts";
import type { ListedDoor, ListedSupply } from "../list.ts";
import { whoDecides } from "../words.ts";
import type { DoorsFormat } from "./index.ts";

export const json: DoorsFormat = {
  name: "json",
  render({ site, doors, supplies }) {
    const list = { site, doors: doors.map(doorOf), supplies: supplies.map(supplyOf), decides: whoDecides };
    return jsonText(list, (_, value) => (typeof value === "number" ? Number(value.toFixed(6)) : value));
  },
};

function doorOf({ label, relays, sum, words, cautions }: ListedDoor) {
  const { lock, limits, cable, fedBy = [], onMains, atBatteryEnd, verdicts = [], contacts = [] } = sum ?? {};
  const { span: _lockSpan, ...lockSaid } = lock ?? {};
  const { span: _cableSpan, ...cableSaid } = cable ?? {};
  return {
    label,
    relays: relays.map(({ keypad, relay, release }) => ({ keypad, relay, release })),
    ...(lock && { lock: lockSaid }),
    ...(limits && { limits }),
    ...(cable && { cable: cableSaid }),
    fedBy: fedBy.map(supply => supply.id),
    ...(onMains && { onMains: atLockOf(onMains) }),
    ...(atBatteryEnd && { atBatteryEnd: atLockOf(atBatteryEnd) }),
    verdicts,
    contacts: contacts.map(({ relay, keypad, rated, amps, inrushAmps, volts, over }) => ({
      keypad: keypad.id,
      relay: relay.set,
      rated,
      amps,
      inrushAmps,
      volts,
      over,
    })),
    cautions,
    missing: words.missing,
    assumed: words.assumed,
  };
}

function atLockOf({ supplyVolts, lost, asConstant, asCoil }: AtLock) {
  return { supplyVolts, ...lost, asConstant, asCoil };
}

function supplyOf({ sum, words }: ListedSupply) {
  const { id, label, volts, amps, current, feeds, totalAmps, standingAmps, openingAmps, peakAmps, spareAmps, over, batterySum } = sum;
  return {
    id,
    label,
    volts,
    amps,
    current,
    feeds: feeds.map(({ what, label: fed, amps: taken, inrushAmps, takes, because }) => ({
      what,
      label: fed,
      amps: taken,
      inrushAmps,
      takes,
      because,
    })),
    totalAmps,
    standingAmps,
    openingAmps,
    peakAmps,
    spareAmps,
    over,
    battery: batterySum,
    missing: words.missing,
    assumed: words.assumed,
  };
}
