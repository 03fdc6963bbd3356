/** The sum of a door and the budget of a supply in lines of words: for hovers, lists and the handover. */
import { visible } from "../sheet/visible.ts";
import type { AtLock, ContactSum, DoorSum } from "./door-sum.ts";
import type { BatterySum, Fed, SupplySum } from "./supply-sum.ts";
import { ampHoursWords, ampsWords, cableWords, heldAgainst, hoursWords, ohmsWords, voltsWords } from "./words.ts";

/** Every text is one line without a full stop. Labels are the user's own, made visible. */
export interface SumWords {
  readonly lines: readonly string[];
  /** What would have to be said before the rest can be worked out. */
  readonly missing: readonly string[];
  readonly assumed: readonly string[];
}

/** What is behind the lines, in words without a full stop: what they lack, and what they take for granted. */
export function behindTheSum({ missing, assumed }: SumWords, written: (words: string) => string = words => words): readonly string[] {
  return [
    ...(missing.length > 0 ? [`to be said before the rest can be worked out: ${missing.map(written).join("; ")}`] : []),
    ...(assumed.length > 0 ? [`assumed: ${assumed.map(written).join("; ")}`] : []),
  ];
}

export function doorSumWords(sum: DoorSum): SumWords {
  const lines = [
    lockLine(sum),
    ...(sum.fedBy[0] ? [`fed by ${sum.fedBy.map(({ label }) => visible(label)).join(" and ")}`] : []),
    ...(sum.onMains ? [voltsLine("on mains", sum, sum.onMains, "mains")] : []),
    ...(sum.atBatteryEnd ? [voltsLine("at the end of the battery", sum, sum.atBatteryEnd, "battery")] : []),
    // Where the drop is not known, the supply's own volts may be out of what the lock takes already.
    ...(sum.onMains || sum.atBatteryEnd ? [] : sum.verdicts.map(verdictWords)),
    ...sum.contacts.flatMap(contactLine),
  ];
  return { lines: lines.filter(line => line !== ""), missing: sum.missing.map(visible), assumed: sum.assumed };
}

/** `strike, 12 V, 350 mA, fail-secure; takes 10.8 V to 13.2 V`. */
function lockLine({ lock, limits }: DoorSum): string {
  const said = [
    lock.kind,
    lock.ratedVolts === undefined ? undefined : `${voltsWords(lock.ratedVolts)}${lock.current === "AC" ? " AC" : ""}`,
    lock.ratedAmps === undefined ? undefined : ampsWords(lock.ratedAmps),
    lock.inrushAmps === undefined ? undefined : `${ampsWords(lock.inrushAmps)} inrush`,
    lock.withoutPower === "stays" ? "stays as it is without power" : lock.withoutPower,
  ].filter(word => word !== undefined);
  if (said.length === 0) return "";
  const range = limits ? `; takes ${voltsWords(limits.lowest)} to ${voltsWords(limits.highest)}` : "";
  return said.join(", ") + range;
}

/** `on mains: 13.8 V less 0.48 V over 2 × 28 m of 0.75 mm² at 20 °C (1.372 Ω) leaves 13.32 V, more than the 13.2 V it takes`. */
function voltsLine(when: string, { cable, verdicts }: DoorSum, at: AtLock, by: "mains" | "battery"): string {
  const { supplyVolts, lost, asConstant, asCoil } = at;
  const over = cable ? ` over ${cableWords(cable)} (${ohmsWords(cable.ohms)})` : "";
  const other = lost === asConstant ? asCoil : asConstant;
  const otherVolts = voltsWords(other.volts);
  const otherwise =
    otherVolts === voltsWords(lost.volts)
      ? ""
      : `; ${otherVolts} if the lock ${other === asCoil ? "takes less when it gets less" : "takes the same whatever it gets"}`;
  const judged = verdicts.filter(verdict => verdict.by === by).map(verdict => `, ${heldWords(verdict)}`);
  return `${when}: ${voltsWords(supplyVolts)} less ${voltsWords(lost.dropVolts)}${over} leaves ${voltsWords(lost.volts)}${judged.join("")}${otherwise}`;
}

type Verdict = DoorSum["verdicts"][number];

function heldWords({ is, volts, limit }: Verdict): string {
  const [, held] = heldAgainst(voltsWords, volts, limit);
  return is === "high" ? `more than the ${held} it takes` : `less than the ${held} it needs`;
}

function verdictWords(verdict: Verdict): string {
  const when = verdict.by === "mains" ? "on mains" : "at the end of the battery";
  return `${when}: ${heldAgainst(voltsWords, verdict.volts, verdict.limit)[0]} at the supply, ${heldWords(verdict)}`;
}

function contactLine({ relay, keypad, rated, amps, inrushAmps, volts, over }: ContactSum): readonly string[] {
  if (!rated) return [];
  const parts = [
    amps === undefined ? undefined : `${ampsWords(amps)} of ${ampsWords(rated.amps)}`,
    inrushAmps === undefined ? undefined : `${ampsWords(inrushAmps)} inrush`,
    volts === undefined || rated.volts === undefined ? undefined : `${voltsWords(volts)} of ${voltsWords(rated.volts)}`,
  ].filter(part => part !== undefined);
  if (parts.length === 0) return [];
  const verdict = over.length > 0 ? ": more than it is rated for" : "";
  return [`contact of relay ${relay.set} of ${visible(keypad.label || keypad.id)}: ${parts.join(", ")}${verdict}`];
}

export function supplySumWords(sum: SupplySum): SumWords {
  const said = [
    sum.volts === undefined ? undefined : `${voltsWords(sum.volts)}${sum.current ? ` ${sum.current}` : ""}`,
    sum.amps === undefined ? undefined : ampsWords(sum.amps),
  ].filter(word => word !== undefined);
  return {
    lines: [
      ...(said.length > 0 ? [said.join(", ")] : []),
      ...sum.feeds.map(fedLine),
      ...budgetLines(sum),
      ...(sum.batterySum ? batteryLines(sum.batterySum, sum.unknown.length > 0) : []),
    ],
    missing: sum.unknown.map(visible),
    assumed: sum.assumed,
  };
}

function fedLine({ label, amps, inrushAmps, takes }: Fed): string {
  const inrush = inrushAmps === undefined ? "" : `, ${ampsWords(inrushAmps)} inrush`;
  const what = amps === undefined ? "not known" : `${ampsWords(amps)}${inrush}${takes === "opening" && amps > 0 ? ", to open only" : ""}`;
  return `feeds ${visible(label)}: ${what}`;
}

function budgetLines({ feeds, totalAmps, peakAmps, amps, spareAmps, over, unknown }: SupplySum): readonly string[] {
  if (feeds.length === 0) return [];
  const least = unknown.length > 0 ? "at least " : "";
  const [total, limit] = heldAgainst(ampsWords, totalAmps, amps ?? totalAmps + 1);
  const held =
    amps === undefined || spareAmps === undefined
      ? ""
      : over
        ? `, more than its ${limit}`
        : ` of ${limit}, ${least === "" ? "" : "at most "}${ampsWords(spareAmps)} to spare`;
  return [
    `all at once: ${least}${total}${held}`,
    ...(peakAmps > totalAmps ? [`${ampsWords(peakAmps)} while the largest inrush lasts`] : []),
  ];
}

function batteryLines(battery: BatterySum, isPart: boolean): readonly string[] {
  const { volts, ampHours, endVolts, hoursAsked, needed, lasts, short } = battery;
  const said = [
    volts === undefined ? undefined : voltsWords(volts),
    ampHours === undefined ? undefined : ampHoursWords(ampHours),
    hoursAsked === undefined ? undefined : `for ${hoursWords(hoursAsked)}`,
    endVolts === undefined ? undefined : `down to ${voltsWords(endVolts)}`,
  ].filter(word => word !== undefined);
  const capacity =
    needed &&
    `needed for ${hoursWords(hoursAsked ?? 0)}: ${isPart ? "at least " : ""}${ampHoursWords(needed.ampHours)}${short.includes("capacity") ? ", more than it has" : ""}`;
  const time =
    lasts &&
    `new it lasts ${isPart ? "at most " : "about "}${hoursWords(lasts.hours)} at a mean of ${ampsWords(lasts.meanAmps)}${short.includes("hours") ? ", less than asked" : ""}`;
  return [
    ...(said.length > 0 ? [`battery ${said.join(", ")}`] : []),
    ...(capacity ? [capacity] : []),
    ...(time ? [time] : []),
    ...(short.includes("volts") ? ["the supply's voltage is below the battery's: it cannot charge it"] : []),
  ];
}
