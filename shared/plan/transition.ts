/** From one memory to another by entries alone: which are typed, and in which order. */
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { Memory, TagId } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { relaysOf } from "../keypad/relay-set.ts";
import { Holding } from "./clearing.ts";
import { breakers } from "./cycles.ts";
import { afterRelength, changesLength, factSteps } from "./fact-steps.ts";
import { inOrder, withNeeds } from "./order.ts";
import type { Place } from "./place.ts";
import { placesOf } from "./place.ts";
import type { Doors, LengthSteps } from "./sleepers.ts";
import { doorsOf, guardingCodes, guardsOf, halfOf, needSleepersGone, slotOf, wokenCodes } from "./sleepers.ts";
import type { Because, PlaceSteps, Step } from "./steps.ts";
import { endsFiring, placeSteps } from "./steps.ts";
import type { Change } from "./typing.ts";
import { emptyingCost } from "./typing.ts";
import { needUnknownGone } from "./unknown.ts";
import type { Meanwhile } from "./writes.ts";

/** Entries in the order typed. A new installer code has its own stretch, before and after which programming mode is left. */
export interface Transition {
  readonly beforeInstaller: readonly Step[];
  readonly installer?: Step;
  readonly rest: readonly Step[];
  readonly doors: Doors;
}

/** Why it cannot be done by entries, in words without a code. */
export interface NoWay {
  readonly reasons: readonly string[];
  /** Programming mode cannot be entered at all. */
  readonly shutOut?: true;
}

/**
 * @param lost tags that cannot be presented.
 * @param unsure nobody knows whether the installer code is the wanted one.
 */
export function transition(model: Model, from: Memory, to: Memory, lost: ReadonlySet<TagId>, unsure = false): Transition | NoWay {
  const facts = factSteps(model, from, to, unsure);
  if (facts.stuck.length + facts.wrong.length > 0) return { reasons: [...facts.stuck, ...facts.wrong] };
  const changes = changesLength(model, from, to);
  const length = facts.length ?? ((changes || unsure) && model.length === "follows installer code" ? facts.installer : undefined);
  const steps: LengthSteps = { ...(facts.installer ? { installer: facts.installer } : {}), ...(length ? { length } : {}) };
  const stored = changes && model.relength === "clears" ? afterRelength(model, from, facts) : from;
  const doors = doorsOf(model, from, stored, to);
  const guarding = stored === from ? new Set<string>() : guardingCodes(model, from, doors);
  const shutOut = whyShutOut(doors) ?? whyAsleep(doors);
  if (shutOut) return shutOut;
  const meanwhile: Meanwhile = {
    harmless: content => doors.to.wouldListen({ key: "", ...content }).every(string => !doors.allowed.lacks(string)),
    kept: (place, content) =>
      !place.unknown &&
      doors.to.wouldListen(slotOf(place, content)).every(string => {
        if (!doors.allowed.lacks(string)) return true;
        const { until, since } = guardsOf(model, doors, byId, string, length !== undefined);
        return until.length + since.length > 0;
      }),
  };
  const woken = changes && model.relength === "keeps" ? wokenCodes(model, from, to, doors.allowed) : new Set<string>();
  const places = placesOf(stored, to, from, guarding).map(place =>
    place.from.code !== undefined && woken.has(place.from.code) ? { ...place, wakes: true as const } : place,
  );
  const change: Change = { model, from: stored, to, places, lost, meanwhile, woken };
  const byId = new Map(places.map(place => [place.id, place]));
  const holding = new Holding(places);
  const factsAlone = [...(facts.installer ? [facts.installer] : []), ...(facts.length ? [facts.length] : []), ...facts.others];

  const emptied = new Map<Place, Because>();
  for (;;) {
    for (const step of factsAlone) step.needs.clear();
    const found = placeSteps(change, emptied);
    if (found.stuck.length > 0) return { reasons: found.stuck.map(({ place, reason }) => `${placeWords(place)}: ${reason}`) };
    if (length) needLength(model, from, stored, to, found, length);
    needHalvesDone(doors, found);
    needSleepersGone(model, stored, to, doors, byId, found, steps);
    needUnknownGone(model, stored, to, doors, places, found, steps);
    const all = [...factsAlone, ...found.steps];
    const shutting = new Set(shutters(doors, places, found));
    if (length && changes) shutting.add(length);
    const { ordered, left } = inOrder(all, groups(steps, shutting));
    if (left.length === 0) {
      if (stored !== from) sayRelength(from, stored, found);
      if (facts.installer) sayBlocked(doors, byId, facts.installer);
      return split(ordered, facts.installer, doors);
    }
    const extra = (place: Place) => (emptied.has(place) ? undefined : emptyingCost(change, holding, place));
    const broken = breakers(left, extra, step => shutting.has(step));
    if (!broken || broken.size === 0) return { reasons: ["places wait for one another, and none of them can be emptied first"] };
    for (const place of broken)
      emptied.set(place, doors.from.at(place.id).some(one => doors.allowed.lacks(one)) ? "would wake" : "breaks a cycle");
  }
}

/** What is wanted would never fire: a shorter code or a twin before it always would. */
function whyAsleep({ to }: Doors): NoWay | undefined {
  for (const string of to.all()) {
    if (to.isHeard(string) && to.beatenBy(string.symbols) === undefined) continue;
    return { reasons: ["something that is wanted would never fire: another that is wanted always fires before it"] };
  }
  return undefined;
}

/** The installer code must enter before and after. */
function whyShutOut({ before, to }: Doors): NoWay | undefined {
  const enters = (openings: Doors["before"]) => openings.at("enter").every(enter => openings.blocking(enter).length === 0);
  const why = "the keypad would act on a stored code before the installer code is complete";
  if (!enters(before)) return { reasons: [`programming mode cannot be entered: ${why}`], shutOut: true };
  return enters(to) ? undefined : { reasons: [`what is wanted would shut the installer out: ${why}`] };
}

/**
 * While one half of a pair is written and the other is not, the place may open what opened before somewhere else. It stays open
 * there until the other half is written: an interrupted visit would else have to begin with clearing the pair.
 */
function needHalvesDone(doors: Doors, found: PlaceSteps): void {
  const byId = new Map([...found.removers.keys()].map(place => [place.id, place]));
  for (const [place, own] of found.writers) {
    const { id, from, to } = place;
    const emptied = [...Object.values(found.removers.get(place) ?? {})].some(step => step.writes === undefined);
    if (!own.code || !own.tag || emptied) continue;
    for (const [half, other] of [
      ["code", "tag"],
      ["tag", "code"],
    ] as const) {
      const [first, second] = [own[half], own[other]];
      if (!first || !second || first.needs.has(second) || from[other] === undefined || from[other] === to[other]) continue;
      const fires = to.fires === undefined ? {} : { fires: to.fires };
      for (const string of doors.from.wouldListen({ key: id, [half]: to[half], [other]: from[other], ...fires })) {
        const own = doors.from.at(id).find(one => one.text === string.text && one.fires === string.fires);
        if (!doors.wanted.lacks(string) || (own && doors.from.isHeard(own) && doors.from.beatenBy(own.symbols) === undefined)) continue;
        for (const holder of doors.from.ends(string.text)) {
          const held = holder.place === id ? undefined : byId.get(holder.place);
          const gone = held && endsFiring(found, held, halfOf(holder));
          if (!gone || gone === second) continue;
          // A half that is new to the place may as well come second: then the other place is shut at once.
          if (from[half] === undefined && !withNeeds([second]).has(first)) first.needs.add(second);
          else gone.needs.add(second);
        }
      }
    }
  }
}

/** What is typed into a place whose code goes with the old length says so. */
function sayRelength(from: Memory, stored: Memory, found: PlaceSteps): void {
  for (const [{ id, kind }, { code }] of found.writers) {
    const [was, is] =
      kind === "slot"
        ? [from.slots.get(id)?.code, stored.slots.get(id)?.code]
        : [from.allRelay.get(keyOf(id))?.code, stored.allRelay.get(keyOf(id))?.code];
    if (code && was !== undefined && is === undefined) code.because = "length changed";
  }
}

/** `all-relay 990` is `990` in a memory. */
function keyOf(id: string): string {
  return id.replace(/^all-relay /, "");
}

/** A place that is cleared so that the new installer code enters says so. */
function sayBlocked({ before, to }: Doors, places: ReadonlyMap<string, Place>, installer: Step): void {
  const blocking = new Set(to.at("enter").flatMap(next => before.blocking(next).map(({ place }) => places.get(place))));
  for (const step of installer.needs)
    if (step.because && step.empties.some(place => blocking.has(place))) step.because = "installer blocked";
}

/** Codes are written when their length is in force; a code is cleared by its digits while the keypad takes that many. */
function needLength(model: Model, from: Memory, stored: Memory, to: Memory, found: PlaceSteps, length: Step): void {
  const inForce = codeLengthsInForce(model, to);
  for (const [{ id }, own] of found.writers) {
    if (own.code) own.code.needs.add(length);
    // A tag goes into a place whose code the new length takes, or puts to sleep.
    const code = from.slots.get(id)?.code;
    const passes = code !== undefined && (stored.slots.get(id)?.code === undefined || !inForce.includes(code.length));
    if (own.tag && passes) own.tag.needs.add(length);
  }
  if (!changesLength(model, from, to)) return;
  // Room that the codes leave is there when the new length has taken them.
  const tags = found.steps.filter(step => step.operation.operation === "put tag");
  const crowded = model.slots.addressing === "unnumbered" && from !== stored && from.slots.size + tags.length > model.slots.capacity;
  if (crowded) for (const step of tags) step.needs.add(length);
  const digits = length.operation.operation === "set length" ? length.operation.digits : to.installer?.length;
  for (const step of found.steps) {
    const { operation, empties } = step;
    const code = operation.operation === "clear code" || operation.operation === "clear all-relay" ? operation.code : undefined;
    if (code === undefined) {
      // What else is in a place that the new length frees of its code is cleared after it: the code may keep another asleep.
      const passes = empties.some(({ id }) => from.slots.get(id)?.code !== stored.slots.get(id)?.code);
      if (passes) step.needs.add(length);
      continue;
    }
    if (code.length === digits) step.needs.add(length);
    else length.needs.add(step);
  }
}

/** Entries after which something no longer opens that should not. */
function* shutters(doors: Doors, places: readonly Place[], found: PlaceSteps): Iterable<Step> {
  for (const place of places) {
    if (place.unknown) for (const step of Object.values(found.removers.get(place) ?? {})) yield step;
    for (const string of doors.from.at(place.id)) {
      const step = endsFiring(found, place, halfOf(string));
      const unwanted = string.fires !== undefined && relaysOf(string.fires).some(relay => !doors.wanted.has(string.text, relay));
      if (step && unwanted && doors.from.fires(string).length > 0) yield step;
    }
  }
}

/** What the installer code waits for, that code, the length, what shuts something, the rest. */
function groups({ installer, length }: LengthSteps, shutting: ReadonlySet<Step>): (step: Step) => number {
  const first = withNeeds(installer ? [installer] : []);
  const second = withNeeds(length ? [length] : []);
  const third = withNeeds(shutting);
  return step => {
    if (step === installer) return 1;
    if (first.has(step)) return 0;
    if (second.has(step)) return 2;
    return third.has(step) ? 3 : 4;
  };
}

function split(ordered: readonly Step[], installer: Step | undefined, doors: Doors): Transition {
  if (!installer) return { beforeInstaller: [], rest: ordered, doors };
  const at = ordered.indexOf(installer);
  return { beforeInstaller: ordered.slice(0, at), installer, rest: ordered.slice(at + 1), doors };
}

function placeWords({ kind, number, from, to }: Place): string {
  if (kind === "all-relay") return number === undefined ? "the all-relay code" : `all-relay code ${number}`;
  const relay = to.fires ?? from.fires;
  return `${number === undefined ? "a place" : `slot ${number}`}${relay === undefined ? "" : ` of relay ${relay}`}`;
}
