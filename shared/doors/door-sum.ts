/** The sum of each door: what its lock gets of the supply's volts, and what the relay's contact carries. */
import type { DoorDecl, Span, SupplyDecl } from "../../grammar/tree.ts";
import type { FileId } from "../finding.ts";
import type { Keypad, KeypadRelay, Site } from "../site/site.ts";
import { assumedOf, missingOf } from "./assumed.ts";
import type { ConductorClass } from "./conductor.ts";
import type { Run } from "./drop.ts";
import { dropAtCurrent, dropOfCoil, runOhms } from "./drop.ts";
import { arithmetic, cellVolts, usualTolerance } from "./limits.ts";
import type { LockKind } from "./resolve.ts";
import { doorsOf, says } from "./resolve.ts";
import type { Battery, Lock, SupplySaid, WithoutPower } from "./wiring.ts";
import { cableOf, lockOf, supplyOf } from "./wiring.ts";

/** All currents in A, volts in V, lengths in m; what is not known is left out. */
export interface DoorSum {
  readonly label: string;
  readonly file: FileId;
  readonly node: DoorDecl;
  readonly lock: {
    readonly kind?: LockKind;
    /** As the text says it, or, for a magnet, as it cannot but be. */
    readonly withoutPower?: WithoutPower;
    readonly current: "AC" | "DC";
    /** `coil`: takes less when it gets less. `constant`: takes the same whatever it gets; so where the text does not say `resistive`. */
    readonly load: "constant" | "coil";
    readonly ratedVolts?: number;
    readonly ratedAmps?: number;
    readonly inrushAmps?: number;
    /** The `lock` fact. */
    readonly span?: Span;
  };
  /** What the lock may get: its rated volts less and more the tolerance. */
  readonly limits?: { readonly tolerancePercent: number; readonly lowest: number; readonly highest: number };
  readonly cable?: CableSum;
  /** The supplies that say that they feed the door, in the order of the text: the sum is of the first. */
  readonly fedBy: readonly FeedingSupply[];
  readonly onMains?: AtLock;
  /** At the end of the battery's discharge; undefined without a battery. */
  readonly atBatteryEnd?: AtLock;
  /** What of `limits` is not kept, and by which of the two. */
  readonly verdicts: readonly {
    readonly is: "low" | "high";
    readonly by: "mains" | "battery";
    readonly volts: number;
    readonly limit: number;
  }[];
  /** An a.c. lock on a supply that is said to be d.c. or has a battery, or a lock that is said to be d.c. on an a.c. supply. */
  readonly wrongCurrent: boolean;
  readonly contacts: readonly ContactSum[];
  /** In the fewest words, without a full stop: what the sum takes for granted. */
  readonly assumed: readonly string[];
  /** In words, without a full stop: what would have to be said before the rest can be worked out. */
  readonly missing: readonly string[];
}

export interface CableSum {
  /** One way. */
  readonly metres: number;
  readonly mm2?: number;
  readonly awg?: number;
  /** Of IEC 60228; undefined for a wire gauge, which is taken as solid. */
  readonly class?: ConductorClass;
  /** °C. */
  readonly celsius: number;
  /** Of one conductor at that temperature. */
  readonly ohmsPerKm: number;
  /** Of both conductors. */
  readonly ohms: number;
  readonly span: Span;
}

export interface FeedingSupply {
  readonly id: string;
  readonly label: string;
  readonly file: FileId;
  readonly node: SupplyDecl;
  /** On mains. */
  readonly volts?: number;
  readonly amps?: number;
  readonly current?: "AC" | "DC";
  /** Where its current is said. */
  readonly ampsSpan?: Span;
  readonly battery?: Battery;
  /** At the end of the battery's discharge. */
  readonly endVolts?: number;
}

/** What is left at the lock of a supply's volts. */
export interface AtLock {
  readonly supplyVolts: number;
  /** The load that counts, by `lock.load`. */
  readonly lost: Lost;
  readonly asConstant: Lost;
  readonly asCoil: Lost;
}

export interface Lost {
  readonly amps: number;
  readonly dropVolts: number;
  /** At the lock; 0 where the cable would take all there is. */
  readonly volts: number;
}

/** What goes through the contact of a relay that works the door. */
export interface ContactSum {
  readonly relay: KeypadRelay;
  readonly keypad: Keypad;
  /** As the model rates it. */
  readonly rated?: { readonly amps: number; readonly volts?: number };
  readonly amps?: number;
  readonly inrushAmps?: number;
  readonly volts?: number;
  readonly over: readonly ("amps" | "inrush" | "volts")[];
}

/** A site is a value; several findings and faces ask for the sums of one. */
const known = new WeakMap<Site, readonly DoorSum[]>();

/** The sum of every door that has a label, in the order of the text. */
export function doorSums(site: Site): readonly DoorSum[] {
  const sums = known.get(site) ?? sumsOf(site);
  known.set(site, sums);
  return sums;
}

function sumsOf(site: Site): readonly DoorSum[] {
  const doors = doorsOf(site);
  if (doors.length === 0) return [];
  const feeding = feedingByDoor(site);
  return doors.map(door => {
    const said = lockOf(door.node).said;
    const lock = lockSum(said, door.lock);
    const cable = cableSum(door.node);
    const fedBy = feeding.get(door.label) ?? [];
    const supply = fedBy[0];
    const tolerancePercent = said?.tolerance ?? usualTolerance;
    // A start contact has the volts of its operator on it, not those of a supply.
    const isFed = lock.kind !== "start contact";
    const limits = lock.ratedVolts === undefined || !isFed ? undefined : limitsOf(lock.ratedVolts, tolerancePercent);
    const wrongCurrent = isFed && supply !== undefined && isOfOtherCurrent(door.node, supply);
    const at = (volts: number | undefined): AtLock | undefined =>
      volts === undefined || wrongCurrent || !isFed ? undefined : atLock(lock, cable, volts);
    const [onMains, atBatteryEnd] = [at(supply?.volts), at(supply?.endVolts)];
    const sum = {
      label: door.label,
      file: door.file,
      node: door.node,
      lock,
      ...(limits ? { limits } : {}),
      ...(cable ? { cable } : {}),
      fedBy,
      ...(onMains ? { onMains } : {}),
      ...(atBatteryEnd ? { atBatteryEnd } : {}),
      verdicts:
        limits && !wrongCurrent
          ? verdictsOf(limits, onMains?.lost.volts ?? supply?.volts, atBatteryEnd?.lost.volts ?? supply?.endVolts)
          : [],
      wrongCurrent,
      contacts: door.relays.map(relay => contactSum(relay, lock, onMains, supply?.volts)),
    };
    return { ...sum, assumed: assumedOf(sum), missing: missingOf(sum, door.node) };
  });
}

/** A supply with a battery is d.c.; a lock that says neither is taken to be for what it gets. */
function isOfOtherCurrent(door: DoorDecl, supply: FeedingSupply): boolean {
  if (says(door, "lock", "AC")) return supply.battery !== undefined || supply.current === "DC";
  return says(door, "lock", "DC") !== undefined && supply.current === "AC";
}

/** The sum of the door of that label; undefined where no door is so described. */
export function doorSum(site: Site, label: string): DoorSum | undefined {
  return doorSums(site).find(sum => sum.label === label);
}

/** Supplies with what the text says of them, in its order. */
export function suppliesOf(site: Site): readonly (FeedingSupply & { readonly said: SupplySaid })[] {
  return site.supplies.map(({ file, node }) => {
    const { said } = supplyOf(node);
    const { volts, amps, battery } = said;
    const endVolts = battery && (battery.endVolts ?? dischargedVolts(battery.volts));
    const current = node.words.find(word => word.text === "AC" || word.text === "DC")?.text;
    return {
      id: node.name?.text ?? "",
      label: node.label?.text ?? node.name?.text ?? "",
      file,
      node,
      said,
      ...(volts === undefined ? {} : { volts }),
      ...(amps === undefined ? {} : { amps }),
      ...(said.ampsSpan ? { ampsSpan: said.ampsSpan } : {}),
      ...(current === "AC" || current === "DC" ? { current } : {}),
      ...(battery ? { battery } : {}),
      ...(endVolts === undefined ? {} : { endVolts }),
    };
  });
}

/** Volts of a lead-acid battery at the end of its discharge. */
function dischargedVolts(rated: number | undefined): number | undefined {
  return rated === undefined ? undefined : (rated / cellVolts.rated) * cellVolts.discharged;
}

function feedingByDoor(site: Site): ReadonlyMap<string, readonly FeedingSupply[]> {
  const feeding = new Map<string, FeedingSupply[]>();
  for (const supply of suppliesOf(site)) {
    const labels = supply.node.facts.flatMap(fact => fact.feeds.flatMap(fed => ("door" in fed ? [fed.door.text] : [])));
    for (const label of new Set(labels)) feeding.set(label, [...(feeding.get(label) ?? []), supply]);
  }
  return feeding;
}

function lockSum(said: Lock | undefined, kind: LockKind | undefined): DoorSum["lock"] {
  const withoutPower = said?.withoutPower ?? (kind === "magnet" ? "fail-safe" : undefined);
  return {
    ...(kind ? { kind } : {}),
    ...(withoutPower ? { withoutPower } : {}),
    current: said?.current ?? "DC",
    load: said?.resistive ? "coil" : "constant",
    ...(said?.volts === undefined ? {} : { ratedVolts: said.volts }),
    ...(said?.amps === undefined ? {} : { ratedAmps: said.amps }),
    ...(said?.inrushAmps === undefined ? {} : { inrushAmps: said.inrushAmps }),
    ...(said ? { span: { start: said.fact.start, end: said.fact.end } } : {}),
  };
}

function cableSum(door: DoorDecl): CableSum | undefined {
  const { said } = cableOf(door);
  if (said?.metres === undefined || said.ohmsPerKm === undefined) return undefined;
  const { fact, metres, mm2, awg, celsius = 20, ohmsPerKm } = said;
  return {
    metres,
    ...(mm2 === undefined ? {} : { mm2, class: said.class ?? 1 }),
    ...(awg === undefined ? {} : { awg }),
    celsius,
    ohmsPerKm,
    ohms: runOhms({ metres, ohmsPerKm }),
    span: { start: fact.start, end: fact.end },
  };
}

function limitsOf(ratedVolts: number, tolerancePercent: number): DoorSum["limits"] {
  const part = tolerancePercent / 100;
  return { tolerancePercent, lowest: ratedVolts * (1 - part), highest: ratedVolts * (1 + part) };
}

/**
 * A load of constant current is the careful one of the two at either limit: below its rated volts it takes more than a coil,
 * which leaves less at the lock, and above them less, which leaves more.
 */
function atLock(lock: DoorSum["lock"], cable: Run | undefined, supplyVolts: number): AtLock | undefined {
  const { ratedVolts, ratedAmps, load } = lock;
  if (!cable || ratedVolts === undefined || ratedAmps === undefined) return undefined;
  const constantDrop = dropAtCurrent(cable, ratedAmps);
  const asConstant = { amps: ratedAmps, dropVolts: constantDrop, volts: Math.max(0, supplyVolts - constantDrop) };
  const coilDrop = dropOfCoil(cable, supplyVolts, ratedVolts, ratedAmps);
  const coilVolts = supplyVolts - coilDrop;
  const asCoil = { amps: (coilVolts * ratedAmps) / ratedVolts, dropVolts: coilDrop, volts: coilVolts };
  return { supplyVolts, lost: load === "coil" ? asCoil : asConstant, asConstant, asCoil };
}

/**
 * Low is judged at the end of the battery, or on mains where that alone is low or there is none; high on mains. Where the drop
 * cannot be worked out, the supply's own volts are held against the limits.
 */
function verdictsOf(limits: NonNullable<DoorSum["limits"]>, mains?: number, batteryEnd?: number): DoorSum["verdicts"] {
  const verdicts: DoorSum["verdicts"][number][] = [];
  const { lowest, highest } = limits;
  const isLow = (volts: number | undefined): volts is number => volts !== undefined && volts < lowest - arithmetic;
  if (isLow(batteryEnd)) verdicts.push({ is: "low", by: "battery", volts: batteryEnd, limit: lowest });
  else if (isLow(mains)) verdicts.push({ is: "low", by: "mains", volts: mains, limit: lowest });
  if (mains !== undefined && mains > highest + arithmetic) verdicts.push({ is: "high", by: "mains", volts: mains, limit: highest });
  return verdicts;
}

/** A coil on mains takes more than it is rated for. A start contact switches what its operator puts on it. */
function contactSum(relay: KeypadRelay, lock: DoorSum["lock"], mains: AtLock | undefined, supplyVolts: number | undefined): ContactSum {
  const rated = relay.keypad.model?.contact;
  const amps = lock.ratedAmps === undefined ? undefined : Math.max(lock.ratedAmps, mains?.lost.amps ?? 0);
  const inrushAmps = lock.inrushAmps;
  const volts = lock.kind === "start contact" ? lock.ratedVolts : (supplyVolts ?? lock.ratedVolts);
  const over: ContactSum["over"][number][] = [];
  if (rated && amps !== undefined && amps > rated.amps + arithmetic) over.push("amps");
  if (rated && inrushAmps !== undefined && inrushAmps > rated.amps + arithmetic) over.push("inrush");
  if (rated?.volts !== undefined && volts !== undefined && volts > rated.volts + arithmetic) over.push("volts");
  return {
    relay,
    keypad: relay.keypad,
    ...(rated ? { rated } : {}),
    ...(amps === undefined ? {} : { amps }),
    ...(inrushAmps === undefined ? {} : { inrushAmps }),
    ...(volts === undefined ? {} : { volts }),
    over,
  };
}
