/** What a text says of a door's lock and cable and of a supply, in numbers; and what of it cannot be read. */
import type { DoorDecl, DoorFact, Span, SupplyDecl } from "../../grammar/tree.ts";
import type { ConductorClass } from "./conductor.ts";
import { crossSections, ohmsPerKmOfGauge, ohmsPerKmOfSection, temperatureFactor } from "./conductor.ts";
import type { Item, Misread } from "./items.ts";
import { Items, spanOf } from "./items.ts";
import type { LockKind } from "./resolve.ts";
import { factOf, lockKinds } from "./resolve.ts";

/** What a lock is without power. */
export type WithoutPower = "fail-safe" | "fail-secure" | "stays";

export interface Lock {
  readonly fact: DoorFact;
  readonly kind?: LockKind;
  readonly withoutPower?: WithoutPower;
  /** Volts, as the maker rates it. */
  readonly volts?: number;
  readonly amps?: number;
  readonly inrushAmps?: number;
  readonly current: "AC" | "DC";
  /** A plain coil, which takes less when it gets less. */
  readonly resistive: boolean;
  /** Per cent of the rated volts, either way. */
  readonly tolerance?: number;
}

export interface Cable {
  readonly fact: DoorFact;
  /** One way. */
  readonly metres?: number;
  readonly mm2?: number;
  readonly awg?: number;
  readonly class?: ConductorClass;
  /** °C. */
  readonly celsius?: number;
  /** Of one conductor at its temperature; undefined where length or cross-section is not known. */
  readonly ohmsPerKm?: number;
}

export interface Battery {
  readonly fact: Span;
  readonly volts?: number;
  readonly ampHours?: number;
  /** `for 4 h`. */
  readonly hours?: number;
  /** `down to 10.8 V`. */
  readonly endVolts?: number;
}

export interface Read<T> {
  readonly said: T;
  readonly misread: readonly Misread[];
}

/** °C: what no cable in a building is at is a slip. Our own choice. */
const [coldest, warmest] = [-50, 150];
/** Wire gauges as ASTM B258 counts them; those below nought (00, 000) are thicker than any lock's. */
const thinnest = 40;

export function lockOf(door: DoorDecl): Read<Lock | undefined> {
  const fact = factOf(door, "lock");
  if (!fact) return { said: undefined, misread: [] };
  const items = new Items(fact, ["V", "A", "%"]);
  let [volts, amps, inrushAmps, tolerance]: (number | undefined)[] = [];
  let inrush: Item | undefined;
  for (const item of items) {
    const { unit, value } = item;
    if (item.after === "within" && unit === "%") {
      tolerance = items.above0(item, "tolerance", tolerance);
      if (value >= 100) items.outside(item, "tolerance", "less than 100 %");
    } else if (unit === "V") volts = items.above0(item, "voltage", volts);
    else if (unit === "A" && (item.before === "inrush" || (item.after === "inrush" && !inrush))) {
      inrushAmps = items.above0(item, "inrush current", inrushAmps);
      inrush = item;
    } else if (unit === "A") amps = items.above0(item, "current", amps);
    else items.another(item, ["V", "A"]);
  }
  // The number belongs to the word behind it: `350 mA inrush 1.5 A` has them the wrong way round.
  if (inrush && inrushAmps !== undefined && amps !== undefined && inrushAmps < amps) {
    items.outside(inrush, "inrush current", "it is not less than the lock's current, and stands before `inrush`");
    inrushAmps = undefined;
  }
  const words = new Set(fact.words.map(word => word.text));
  const kind = lockKinds.find(one => words.has(one));
  const withoutPower = withoutPowerWords.find(word => words.has(word));
  return {
    said: {
      fact,
      ...(kind ? { kind } : {}),
      ...(withoutPower ? { withoutPower } : {}),
      ...defined({ volts, amps, inrushAmps, tolerance }),
      current: words.has("AC") ? "AC" : "DC",
      resistive: words.has("resistive"),
    },
    misread: items.misread,
  };
}

const withoutPowerWords: readonly WithoutPower[] = ["fail-safe", "fail-secure", "stays"];

export function cableOf(door: DoorDecl): Read<Cable | undefined> {
  const fact = factOf(door, "cable");
  if (!fact) return { said: undefined, misread: [] };
  const items = new Items(fact, ["m", "mm2", "AWG", "C"], true);
  let [metres, mm2, awg, celsius, kind]: (number | undefined)[] = [];
  for (const item of items) {
    const { unit, value } = item;
    if (unit === "class") {
      kind = value;
      if (value !== 1 && value !== 2 && value !== 5) items.outside(item, "class", "1, 2 or 5");
    } else if (unit === "m") metres = items.above0(item, "length", metres);
    else if (unit === "mm2") {
      mm2 = items.above0(item, "cross-section", mm2 ?? awg);
      if (ohmsPerKmOfSection(value, 1) === undefined && value > 0)
        items.outside(item, "cross-section", `${crossSections.join(", ")} mm², the table of IEC 60228, or an AWG`);
    } else if (unit === "AWG") {
      if (mm2 !== undefined) items.above0(item, "cross-section", mm2);
      else awg = items.once(item, "cross-section", awg);
      if (value < 0 || value > thinnest || !Number.isInteger(value)) items.outside(item, "gauge", `a whole number from 0 to ${thinnest}`);
    } else if (unit === "C") {
      celsius = items.once(item, "temperature", celsius);
      if (value < coldest || value > warmest) items.outside(item, "temperature", `${coldest} to ${warmest} °C`);
    } else items.another(item, ["m", "mm2", "AWG", "C"]);
  }
  const isRead = items.misread.length === 0;
  if (isRead && metres === undefined) items.lacks("the cable", "its length, like `28 m`, one way");
  else if (isRead && mm2 === undefined && awg === undefined) items.lacks("the cable", "its cross-section, like `0.75 mm2` or `22 AWG`");
  const known = items.misread.length === 0;
  const ofClass = kind === 1 || kind === 2 || kind === 5 ? kind : undefined;
  const at20 = mm2 !== undefined ? ohmsPerKmOfSection(mm2, ofClass ?? 1) : awg !== undefined ? ohmsPerKmOfGauge(awg) : undefined;
  const ohmsPerKm = known && at20 !== undefined ? at20 * temperatureFactor(celsius ?? 20) : undefined;
  return {
    said: { fact, ...defined({ metres, mm2, awg, celsius, ohmsPerKm }), ...(ofClass ? { class: ofClass } : {}) },
    misread: items.misread,
  };
}

export interface SupplySaid {
  readonly volts?: number;
  readonly amps?: number;
  readonly ampsSpan?: Span;
  readonly battery?: Battery;
}

export function supplyOf(supply: SupplyDecl): Read<SupplySaid> {
  const head = new Items({ start: supply.start, end: supply.keyword.end, words: [], quantities: supply.quantities }, ["V", "A"]);
  let [volts, amps]: (number | undefined)[] = [];
  let ampsSpan: Span | undefined;
  for (const item of head) {
    if (item.unit === "V") volts = head.above0(item, "voltage", volts);
    else if (item.unit === "A") {
      amps = head.above0(item, "current", amps);
      ampsSpan ??= spanOf(item.quantity);
    } else head.another(item, ["V", "A"]);
  }
  if (head.misread.length === 0 && supply.quantities.length > 0) {
    if (volts === undefined) head.lacks("the supply", "its voltage, like `13.8 V`");
    else if (amps === undefined) head.lacks("the supply", "its current, like `3 A`");
  }
  const battery = batteryOf(supply);
  return {
    said: { ...defined({ volts, amps, ampsSpan }), ...(battery.said ? { battery: battery.said } : {}) },
    misread: [...head.misread, ...battery.misread],
  };
}

function batteryOf(supply: SupplyDecl): Read<Battery | undefined> {
  const fact = supply.facts.find(one => one.kind === "battery");
  if (!fact) return { said: undefined, misread: [] };
  const items = new Items(fact, ["V", "Ah", "h"]);
  let [volts, ampHours, hours, endVolts]: (number | undefined)[] = [];
  let end: Item | undefined;
  for (const item of items) {
    const { unit, after } = item;
    if (after === "down to" && unit === "V") {
      endVolts = items.above0(item, "voltage at the end", endVolts);
      end = item;
    } else if (after === "for" && unit === "h") hours = items.above0(item, "time", hours);
    else if (after === "down to" || after === "for") items.another(item, [after === "for" ? "h" : "V"]);
    else if (unit === "V") volts = items.above0(item, "voltage", volts);
    else if (unit === "Ah") ampHours = items.above0(item, "capacity", ampHours);
    else items.another(item, ["V", "Ah"]);
  }
  if (items.misread.length === 0 && fact.quantities.length > 0) {
    if (volts === undefined) items.lacks("the battery", "its voltage, like `12 V`");
    else if (ampHours === undefined) items.lacks("the battery", "its capacity, like `7 Ah`");
    else if (end && endVolts !== undefined && endVolts >= volts)
      items.outside(end, "voltage at the end", `less than the battery's ${volts} V`);
  }
  const isEnd = endVolts !== undefined && volts !== undefined && endVolts < volts;
  return {
    said: { fact: spanOf(fact), ...defined({ volts, ampHours, hours, endVolts: isEnd ? endVolts : undefined }) },
    misread: items.misread,
  };
}

/** Those that are there. */
function defined<T extends object>(values: T): { readonly [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    readonly [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
