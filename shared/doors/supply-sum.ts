/** The budget of each supply: what it feeds, what that takes, and how long its battery lasts. */
import type { FileId } from "../finding.ts";
import type { Keypad, Site } from "../site/site.ts";
import { ageing, capacityNeeded, hoursOfRated, largeLoadFactor } from "./battery.ts";
import type { DoorSum, FeedingSupply } from "./door-sum.ts";
import { doorSums, suppliesOf } from "./door-sum.ts";
import { arithmetic } from "./limits.ts";

/** Hours in all, within the time asked for, that locks which take current only to open are counted at. Our own choice: 360 openings of 5 s. */
const openHours = 0.5;

/** Of a battery's label and law; a capacity is for 20 h unless said, an exponent of 1.2 is usual for lead-acid (common practice, no source). */
export interface BatteryLaw {
  readonly ratedHours: number;
  readonly exponent: number;
}
const usualLaw: BatteryLaw = { ratedHours: 20, exponent: 1.2 };

/** Currents in A, volts in V, capacities in Ah, times in h; what is not known is left out. */
export interface SupplySum extends FeedingSupply {
  readonly feeds: readonly Fed[];
  /** All of them at once: the worst case. A lower bound where `unknown` is not empty. */
  readonly totalAmps: number;
  /** What is taken all the time: keypads, and locks that are held by power. */
  readonly standingAmps: number;
  /** What locks take that need power only to open or to move, all at once. */
  readonly openingAmps: number;
  /** Everything at once while the lock with the largest inrush pulls in. Shown, not judged. */
  readonly peakAmps: number;
  /** `amps` less `totalAmps`; below nought where it is overloaded. */
  readonly spareAmps?: number;
  readonly over: boolean;
  readonly batterySum?: BatterySum;
  /** In words: what is fed and takes nobody knows how much. */
  readonly unknown: readonly string[];
  /** In the fewest words, without a full stop: what is taken for granted, the battery's included. */
  readonly assumed: readonly string[];
}

export interface Fed {
  readonly what: "door" | "keypad";
  /** A door's label, a keypad's label. */
  readonly label: string;
  readonly file: FileId;
  readonly start: number;
  readonly end: number;
  /** Undefined: not known. */
  readonly amps?: number;
  readonly inrushAmps?: number;
  /** `always`: held by power, or a keypad. `opening`: takes power only to open or to move. */
  readonly takes: "always" | "opening";
  /** Why `amps` is not known. */
  readonly because?: string;
}

export interface BatterySum {
  readonly volts?: number;
  readonly ampHours?: number;
  /** At the end of discharge. */
  readonly endVolts?: number;
  readonly hoursAsked?: number;
  /** Capacity for the hours asked: ageing × (standing × hours + d × opening × opening hours). Undefined where no hours are asked. */
  readonly needed?: {
    readonly ampHours: number;
    readonly ageing: number;
    readonly d: number;
    readonly openingHours: number;
  };
  /** How long a new battery lasts at the mean current by Peukert's law; undefined where nothing is known to take current. */
  readonly lasts?: { readonly hours: number; readonly meanAmps: number } & BatteryLaw;
  /** `capacity`: less than needed. `hours`: does not last as long as asked. `volts`: the supply cannot charge it. */
  readonly short: readonly ("capacity" | "hours" | "volts")[];
  /** In the fewest words, without a full stop: what is taken for granted of the battery. */
  readonly assumed: readonly string[];
}

/** The budget of every supply, in the order of the text. */
export function supplySums(site: Site, law: BatteryLaw = usualLaw): readonly SupplySum[] {
  if (site.supplies.length === 0) return [];
  const doors = new Map(doorSums(site).map(sum => [sum.label, sum]));
  return suppliesOf(site).map(({ said: _said, ...supply }) => {
    const feeds = fedBy(supply, site, doors);
    const sumOf = (takes?: Fed["takes"]) =>
      feeds.reduce((sum, fed) => (takes === undefined || fed.takes === takes ? sum + (fed.amps ?? 0) : sum), 0);
    const [totalAmps, standingAmps, openingAmps] = [sumOf(), sumOf("always"), sumOf("opening")];
    const peakAmps = totalAmps + feeds.reduce((most, fed) => Math.max(most, (fed.inrushAmps ?? 0) - (fed.amps ?? 0)), 0);
    const batterySum = batterySumOf(supply, standingAmps, openingAmps, law);
    return {
      ...supply,
      feeds,
      totalAmps,
      standingAmps,
      openingAmps,
      peakAmps,
      ...(supply.amps === undefined ? {} : { spareAmps: supply.amps - totalAmps }),
      over: supply.amps !== undefined && totalAmps > supply.amps + arithmetic,
      ...(batterySum ? { batterySum } : {}),
      unknown: feeds.flatMap(fed => (fed.because === undefined ? [] : [`${fed.label} (${fed.because})`])),
      assumed: [...assumedOfBudget(feeds), ...(batterySum?.assumed ?? [])],
    };
  });
}

/** The budget of the supply of that name; undefined where there is none. */
export function supplySum(site: Site, id: string, law: BatteryLaw = usualLaw): SupplySum | undefined {
  return supplySums(site, law).find(sum => sum.id === id);
}

/** What is fed twice is one load. */
function fedBy(supply: FeedingSupply, site: Site, doors: ReadonlyMap<string, DoorSum>): readonly Fed[] {
  const feeds: Fed[] = [];
  const seen = new Set<string>();
  for (const fed of supply.node.facts.flatMap(fact => fact.feeds)) {
    const word = "door" in fed ? fed.door : fed.keypad;
    const place = { file: supply.file, start: word.start, end: word.end };
    const key = `${"door" in fed ? "door" : "keypad"} ${word.text}`;
    if (seen.has(key)) continue;
    seen.add(key);
    feeds.push({
      ...place,
      ...("door" in fed ? doorFed(word.text, doors.get(word.text)) : keypadFed(word.text, site.keypads.get(word.text))),
    });
  }
  // A keypad often has its door's label.
  const doorLabels = new Set(feeds.flatMap(({ what, label }) => (what === "door" ? [label] : [])));
  return feeds.map(fed => (fed.what === "keypad" && doorLabels.has(fed.label) ? { ...fed, label: `keypad ${fed.label}` } : fed));
}

type Load = Omit<Fed, "file" | "start" | "end">;

function doorFed(label: string, door: DoorSum | undefined): Load {
  const { lock } = door ?? {};
  const what = { what: "door", label } as const;
  if (!door || !lock) return { ...what, takes: "always", because: "the door's lock is not described" };
  // Not knowing better, a lock is taken to be held by power: that is the larger load on a battery.
  const takes = lock.withoutPower === "fail-secure" || lock.withoutPower === "stays" ? "opening" : "always";
  // What goes through a start contact is its operator's.
  const rated = lock.kind === "start contact" ? 0 : lock.ratedAmps;
  if (rated === undefined) return { ...what, takes, because: "the lock's current is not said" };
  const amps = Math.max(rated, door.onMains?.lost.amps ?? 0);
  return { ...what, takes, amps, ...(lock.inrushAmps === undefined ? {} : { inrushAmps: lock.inrushAmps }) };
}

function keypadFed(id: string, keypad: Keypad | undefined): Load {
  const what = { what: "keypad", label: keypad?.label ?? id, takes: "always" } as const;
  if (!keypad) return { ...what, because: "no such keypad" };
  const amps = keypad.model?.drawsAmps;
  return amps === undefined
    ? { ...what, because: `${keypad.node.model?.text ?? "its model"} does not say what it draws` }
    : { ...what, amps };
}

function batterySumOf(supply: FeedingSupply, standing: number, opening: number, law: BatteryLaw): BatterySum | undefined {
  const { battery } = supply;
  if (!battery) return undefined;
  const { volts, ampHours, hours } = battery;
  // A short time asked for is all of it opening, not more.
  const openingHours = Math.min(openHours, hours ?? openHours);
  const draw = { amps: standing, hours: hours ?? 0 };
  const load = { amps: opening, hours: openingHours };
  const d = largeLoadFactor(draw, load);
  const needed = hours === undefined ? undefined : { ampHours: capacityNeeded(draw, load, d), ageing, d, openingHours };
  const meanAmps = hours === undefined ? standing : standing + (opening * openingHours) / hours;
  const lasts =
    ampHours === undefined || meanAmps <= 0
      ? undefined
      : { hours: hoursOfRated(ampHours, meanAmps, law.ratedHours, law.exponent), meanAmps, ...law };
  const short: BatterySum["short"][number][] = [];
  if (needed && ampHours !== undefined && needed.ampHours > ampHours + arithmetic) short.push("capacity");
  if (lasts && hours !== undefined && lasts.hours < hours - arithmetic) short.push("hours");
  if (volts !== undefined && supply.volts !== undefined && supply.volts < volts - arithmetic) short.push("volts");
  return {
    ...(volts === undefined ? {} : { volts }),
    ...(ampHours === undefined ? {} : { ampHours }),
    ...(supply.endVolts === undefined ? {} : { endVolts: supply.endVolts }),
    ...(hours === undefined ? {} : { hoursAsked: hours }),
    ...(needed ? { needed } : {}),
    ...(lasts ? { lasts } : {}),
    short,
    assumed: assumedOfBattery(opening, needed, lasts),
  };
}

/** In the fewest words, without a full stop: they stand in messages, one behind the other. */
function assumedOfBudget(feeds: readonly Fed[]): readonly string[] {
  const charging = feeds.length > 0 ? ["charging the battery is not counted"] : [];
  return feeds.some(fed => fed.what === "door") ? ["every lock takes its current at once", ...charging] : charging;
}

function assumedOfBattery(openingAmps: number, needed: BatterySum["needed"], lasts: BatterySum["lasts"]): readonly string[] {
  const assumed: string[] = [];
  if (needed) {
    assumed.push(`a fifth of the capacity lost to age (${needed.ageing} of BS 5839-1, borrowed from fire alarms)`);
    if (openingAmps > 0) assumed.push(`locks open for ${needed.openingHours} h in all with D ${needed.d} of BS 5839-1`);
  }
  if (lasts) assumed.push(`a capacity for ${lasts.ratedHours} h and Peukert's exponent ${lasts.exponent} in the form for a rated time`);
  return assumed;
}
