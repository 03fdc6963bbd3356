/** What a text says of a door's lock and cable and of a supply, in numbers; and what of it cannot be read. */
import type { DoorDecl, DoorFact, Quantity, Span, SupplyDecl, Word } from "../../grammar/tree.ts";
import type { ConductorClass } from "./conductor.ts";
import { crossSections, ohmsPerKmOfGauge, ohmsPerKmOfSection, temperatureFactor } from "./conductor.ts";
import type { Measured, Unit } from "./quantities.ts";
import { measured, numberOf } from "./quantities.ts";
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

/** Something about a number that cannot be used as it is written. */
export type Misread = Span &
  (
    | { readonly is: "no unit" | "no such unit" | "another unit"; readonly quantity: Quantity; readonly units: readonly Unit[] }
    | { readonly is: "comma" | "not above nought"; readonly quantity: Quantity }
    | { readonly is: "twice"; readonly quantity: Quantity; readonly of: string }
    | { readonly is: "out of range"; readonly quantity: Quantity; readonly of: string; readonly limit: string }
    | { readonly is: "lacks"; readonly of: string; readonly what: string }
  );

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
  for (const item of items) {
    const { unit, value } = item;
    if (item.after === "within" && unit === "%") {
      tolerance = items.above0(item, "tolerance", tolerance);
      if (value >= 100) items.outside(item, "tolerance", "less than 100 %");
    } else if (unit === "V") volts = items.above0(item, "voltage", volts);
    else if (unit === "A" && (item.before === "inrush" || item.after === "inrush"))
      inrushAmps = items.above0(item, "inrush current", inrushAmps);
    else if (unit === "A") amps = items.above0(item, "current", amps);
    else items.another(item, ["V", "A"]);
    if (amps !== undefined && inrushAmps !== undefined && inrushAmps < amps && !items.told(item))
      items.outside(item, "inrush current", "not less than the lock's current, and written before `inrush`");
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
  readonly battery?: Battery;
}

export function supplyOf(supply: SupplyDecl): Read<SupplySaid> {
  const head = new Items({ start: supply.start, end: supply.keyword.end, words: [], quantities: supply.quantities }, ["V", "A"]);
  let [volts, amps]: (number | undefined)[] = [];
  for (const item of head) {
    if (item.unit === "V") volts = head.above0(item, "voltage", volts);
    else if (item.unit === "A") amps = head.above0(item, "current", amps);
    else head.another(item, ["V", "A"]);
  }
  if (head.misread.length === 0 && supply.quantities.length > 0) {
    if (volts === undefined) head.lacks("the supply", "its voltage, like `13.8 V`");
    else if (amps === undefined) head.lacks("the supply", "its current, like `3 A`");
  }
  const battery = batteryOf(supply);
  return {
    said: { ...defined({ volts, amps }), ...(battery.said ? { battery: battery.said } : {}) },
    misread: [...head.misread, ...battery.misread],
  };
}

function batteryOf(supply: SupplyDecl): Read<Battery | undefined> {
  const fact = supply.facts.find(one => one.kind === "battery");
  if (!fact) return { said: undefined, misread: [] };
  const items = new Items(fact, ["V", "Ah", "h"]);
  let [volts, ampHours, hours, endVolts]: (number | undefined)[] = [];
  for (const item of items) {
    const { unit, after } = item;
    if (after === "down to" && unit === "V") endVolts = items.above0(item, "voltage at the end", endVolts);
    else if (after === "for" && unit === "h") hours = items.above0(item, "time", hours);
    else if (after === "down to" || after === "for") items.another(item, [after === "for" ? "h" : "V"]);
    else if (unit === "V") volts = items.above0(item, "voltage", volts);
    else if (unit === "Ah") ampHours = items.above0(item, "capacity", ampHours);
    else items.another(item, ["V", "Ah"]);
  }
  if (items.misread.length === 0 && fact.quantities.length > 0) {
    if (volts === undefined) items.lacks("the battery", "its voltage, like `12 V`");
    else if (ampHours === undefined) items.lacks("the battery", "its capacity, like `7 Ah`");
    else if (endVolts !== undefined && endVolts >= volts) {
      const last = fact.quantities.find(
        quantity => numberOf(quantity.value.text) === endVolts && quantity.start > (fact.words[0]?.start ?? 0),
      );
      items.misread.push({
        ...spanOf(last ?? fact),
        is: "out of range",
        quantity: (last ?? fact.quantities[0]) as Quantity,
        of: "voltage at the end",
        limit: `less than the battery's ${volts} V`,
      });
    }
  }
  return { said: { fact: spanOf(fact), ...defined({ volts, ampHours, hours, endVolts }) }, misread: items.misread };
}

interface Item {
  readonly unit: Unit | "class";
  readonly value: number;
  readonly quantity: Quantity;
  /** The word right before it in the fact, and the one right behind. */
  readonly after?: string;
  readonly before?: string;
}

/** The quantities of a fact in the order written, each with its neighbours; what cannot be read is told and left out. */
class Items {
  readonly misread: Misread[] = [];
  private readonly fact: Span & { readonly words: readonly Word[]; readonly quantities: readonly Quantity[] };
  private readonly units: readonly Unit[];
  private readonly hasClass: boolean;

  constructor(fact: Items["fact"], units: readonly Unit[], hasClass = false) {
    this.fact = fact;
    this.units = units;
    this.hasClass = hasClass;
  }

  *[Symbol.iterator](): Iterator<Item> {
    const parts = [...this.fact.words, ...this.fact.quantities].sort((one, other) => one.start - other.start);
    for (const [index, part] of parts.entries()) {
      if (!("value" in part)) continue;
      const [left, right] = [parts[index - 1], parts[index + 1]];
      const item = {
        quantity: part,
        ...(left && "text" in left ? { after: left.text } : {}),
        ...(right && "text" in right ? { before: right.text } : {}),
      };
      const read = this.hasClass && item.after === "class" ? this.unitless(part) : this.read(part);
      if (read) yield { ...item, ...read };
    }
  }

  private unitless(quantity: Quantity): { unit: "class"; value: number } | undefined {
    const value = numberOf(quantity.value.text);
    if (value === undefined || quantity.unit !== undefined) {
      this.tell(quantity, { is: "out of range", quantity, of: "class", limit: "1, 2 or 5, without a unit" });
      return undefined;
    }
    return { unit: "class", value };
  }

  private read(quantity: Quantity): Measured | undefined {
    const read = measured(quantity);
    if (quantity.value.text.includes(",")) this.tell(quantity, { is: "comma", quantity });
    else if (quantity.unit === undefined) this.tell(quantity, { is: "no unit", quantity, units: this.units });
    else if (read === undefined && numberOf(quantity.value.text) !== undefined)
      this.tell(quantity, { is: "no such unit", quantity, units: this.units });
    else if (read === undefined) this.tell(quantity, { is: "out of range", quantity, of: "number", limit: "one that can be measured" });
    return this.told({ quantity }) ? undefined : read;
  }

  /** The value of a fact that is said once and is more than nought; the first where it is said twice. */
  above0(item: Item, of: string, first: number | undefined): number | undefined {
    if (item.value <= 0) this.tell(item.quantity, { is: "not above nought", quantity: item.quantity });
    const value = this.once(item, of, first);
    return this.told(item) ? first : value;
  }

  once(item: Item, of: string, first: number | undefined): number | undefined {
    if (first === undefined) return item.value;
    this.tell(item.quantity, { is: "twice", quantity: item.quantity, of });
    return first;
  }

  another(item: Item, units: readonly Unit[]): void {
    this.tell(item.quantity, { is: "another unit", quantity: item.quantity, units });
  }

  outside(item: Item, of: string, limit: string): void {
    this.tell(item.quantity, { is: "out of range", quantity: item.quantity, of, limit });
  }

  /** At the word that begins the fact. */
  lacks(of: string, what: string): void {
    this.misread.push({ ...spanOf(this.fact), is: "lacks", of, what });
  }

  told(item: { readonly quantity: Quantity }): boolean {
    return this.misread.some(one => one.is !== "lacks" && one.quantity === item.quantity);
  }

  private tell(quantity: Quantity, what: WithoutSpan<Misread>): void {
    if (!this.told({ quantity })) this.misread.push({ ...spanOf(quantity), ...what });
  }
}

type WithoutSpan<T> = T extends Span ? Omit<T, "start" | "end"> : never;

function spanOf({ start, end }: Span): Span {
  return { start, end };
}

/** Those that are there. */
function defined<T extends object>(values: T): { readonly [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined)) as {
    readonly [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
