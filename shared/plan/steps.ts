/** The entries that a change of memory takes, each with the entries that must have been taken before it; not yet in order. */
import type { Operation } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { Clearing } from "./clearing.ts";
import { clearingsFor, Holding, isWrittenFirst } from "./clearing.ts";
import { writing } from "./operation-of.ts";
import type { Half, Place } from "./place.ts";
import { holdsAny } from "./place.ts";
import type { PlanEntry } from "./plan.ts";
import type { Change } from "./typing.ts";
import { cannotType, effortOf } from "./typing.ts";
import type { Writes } from "./writes.ts";
import { writesFor } from "./writes.ts";

export type Because = NonNullable<PlanEntry["because"]>;

export interface Step {
  readonly operation: Operation;
  because?: Because;
  /** Order of the text; what only clears comes before all that is written. */
  readonly rank: number;
  readonly needs: Set<Step>;
  /** The place that it writes. */
  readonly writes?: Place;
  /** Places that it empties. */
  readonly empties: readonly Place[];
}

/** A change that the keypad has no entry for. */
export interface Stuck {
  readonly place: Place;
  /** What cannot be done, in words without a code. */
  readonly reason: string;
}

export interface PlaceSteps {
  readonly steps: readonly Step[];
  readonly stuck: readonly Stuck[];
  /** The entry after which a place no longer holds what half of it held before. */
  readonly removers: ReadonlyMap<Place, { readonly [H in Half]?: Step }>;
  readonly writers: ReadonlyMap<Place, { readonly [H in Half]?: Step }>;
}

/**
 * Entries for slots and all-relay codes.
 *
 * @param emptied places that are emptied before anything is written there though nothing in them asks for it, and why.
 */
export function placeSteps(change: Change, emptied: ReadonlyMap<Place, Because>): PlaceSteps {
  const { model, places } = change;
  const effort = effortOf(change);
  const holding = new Holding(places);
  const writes = new Map<Place, Writes>();
  const toEmpty: Place[] = [];
  for (const place of places) {
    const own = writesFor(model, place, emptied.has(place), change.meanwhile);
    writes.set(place, own);
    if (own.emptied && (place.unknown || holdsAny(place.from))) toEmpty.push(place);
  }
  const { clearings, stuck } = clearingsFor(model, toEmpty, holding, effort);
  const problems: Stuck[] = stuck.map(place => ({ place, reason: cannotEmpty(model, place) }));
  const steps: Step[] = [];
  const cleared = new Map<Place, Step>();
  const writtenFirst: { readonly place: Place; readonly half: Half; readonly clear: Step }[] = [];
  for (const clearing of clearings) {
    const step = clearingStep(model, clearing, emptied, places.length);
    steps.push(step);
    for (const place of clearing.takes) {
      const own = writes.get(place);
      if (!own?.emptied && keepsHalf(place, own) && isWrittenFirst(place, clearing.operation)) {
        writtenFirst.push({ place, half: clearing.operation.operation === "clear tag" ? "tag" : "code", clear: step });
        continue;
      }
      cleared.set(place, step);
      if (!own?.emptied) writes.set(place, writesFor(model, place, true, change.meanwhile));
    }
  }
  const removers = new Map<Place, { code?: Step; tag?: Step }>();
  const writers = new Map<Place, { code?: Step; tag?: Step }>();
  for (const [place, clear] of cleared) removers.set(place, { code: clear, tag: clear });
  for (const [place, { halves, inOrder }] of writes) {
    if (halves.length === 0) continue;
    const clear = cleared.get(place);
    const own: { code?: Step; tag?: Step } = {};
    let last: Step | undefined;
    for (const half of halves) {
      const operation = writing(model, place, half);
      const reason = operation
        ? cannotType(change, operation)
        : `the model has no entry to write ${half === "code" ? "a code" : "a tag"} there`;
      if (!operation || reason !== undefined) {
        problems.push({ place, reason: reason ?? "" });
        continue;
      }
      const step: Step = { operation, rank: place.rank, needs: new Set(), writes: place, empties: [] };
      if (clear) step.needs.add(clear);
      if (inOrder && last) step.needs.add(last);
      last = step;
      own[half] = step;
      steps.push(step);
    }
    writers.set(place, own);
    if (!clear && (place.unknown || holdsAny(place.from))) removers.set(place, overwritten(model, place, own));
  }
  for (const { place, half, clear } of writtenFirst) {
    const step = writers.get(place)?.[half];
    if (step) clear.needs.add(step);
  }
  needFreedTwins(model, holding, removers, writers);
  needWideClearings(clearings, cleared, writers);
  needRoom(change, steps);
  return { steps, stuck: problems, removers, writers };
}

/** A half stays as it is while the other is written. */
function keepsHalf({ to }: Place, own: Writes | undefined): boolean {
  return (["code", "tag"] as const).some(half => to[half] !== undefined && !own?.halves.includes(half));
}

/**
 * The entry after which a half, or a pair, no longer fires what it fired: it is gone, or the other half was written with another
 * relay.
 */
export function endsFiring({ removers, writers }: PlaceSteps, place: Place, half: Half | "both"): Step | undefined {
  const { code, tag } = removers.get(place) ?? {};
  if (half === "both") return code ?? tag ?? writers.get(place)?.code ?? writers.get(place)?.tag;
  // Of a code that is about to wake only the tag is written before it does.
  const moved = half === "code" && place.wakes && place.from.fires !== place.to.fires ? writers.get(place)?.tag : undefined;
  if (code && moved && code.needs.has(moved)) return moved;
  const gone = half === "code" ? code : tag;
  if (gone || place.from.fires === place.to.fires) return gone;
  return writers.get(place)?.[half === "code" ? "tag" : "code"];
}

function clearingStep(model: Model, { operation, takes }: Clearing, emptied: ReadonlyMap<Place, Because>, places: number): Step {
  const rank = Math.min(...takes.map(place => place.rank)) - 2 * places;
  return { operation, because: whyCleared(model, takes, emptied), rank, needs: new Set(), empties: takes };
}

function whyCleared(model: Model, takes: readonly Place[], emptied: ReadonlyMap<Place, Because>): Because {
  for (const place of takes) {
    const because = emptied.get(place);
    if (because) return because;
  }
  if (takes.some(place => place.unknown)) return "unknown before";
  if (takes.some(place => !holdsAny(place.to))) return "no longer wanted";
  return model.rewrite === "refused" ? "frees a taken slot" : "no longer wanted";
}

/** A place for one thing gives up what it held with the first writing; of a pair each half stays until it is written. */
function overwritten(model: Model, place: Place, own: { readonly [H in Half]?: Step }): { readonly [H in Half]?: Step } {
  const first = own.code ?? own.tag;
  if (!first) return {};
  if (place.kind === "all-relay" || model.slots.holds === "one") return { code: first, tag: first };
  return own;
}

/** Under `twins refused` a code or tag goes into its new place only when its old place has given it up. */
function needFreedTwins(model: Model, holding: Holding, removers: PlaceSteps["removers"], writers: PlaceSteps["writers"]): void {
  if (model.twins !== "refused") return;
  for (const [place, own] of writers)
    for (const half of ["code", "tag"] as const) {
      const step = own[half];
      if (!step) continue;
      for (const holder of half === "code" ? holding.code(place.to.code) : holding.tag(place.to.tag)) {
        if (holder === place || holder.unknown) continue;
        const remover = removers.get(holder)?.[half];
        if (!remover || remover === step) continue;
        step.needs.add(remover);
        if (remover.because === "no longer wanted") remover.because = "frees a twin";
      }
    }
}

/** An entry that clears by code or tag would take what is written before it as well. */
function needWideClearings(clearings: readonly Clearing[], cleared: ReadonlyMap<Place, Step>, writers: PlaceSteps["writers"]): void {
  const wide = clearings.filter(({ operation }) => operation.operation !== "clear slot" && !("slot" in operation));
  if (wide.length === 0) return;
  const ofCode = new Map<string, Clearing[]>();
  const ofTag = new Map<string, Clearing[]>();
  let ofAllRelay: Clearing | undefined;
  for (const clearing of wide) {
    const { operation } = clearing;
    if (operation.operation === "clear tag") push(ofTag, operation.tag, clearing);
    else if (operation.operation === "clear code") push(ofCode, operation.code, clearing);
    else if (operation.operation === "clear all-relay" && operation.code !== undefined) push(ofCode, operation.code, clearing);
    else ofAllRelay = clearing;
  }
  for (const [place, own] of writers)
    for (const half of ["code", "tag"] as const) {
      const step = own[half];
      if (!step) continue;
      const value = place.to[half] ?? "";
      const hit = (half === "code" ? ofCode.get(value) : ofTag.get(value))?.filter(({ operation }) => reaches(operation, place)) ?? [];
      for (const clearing of place.kind === "all-relay" && ofAllRelay ? [...hit, ofAllRelay] : hit) {
        const clear = cleared.get(clearing.takes[0] ?? place);
        if (clear && clear !== step) step.needs.add(clear);
      }
    }
}

function reaches(operation: Operation, place: Place): boolean {
  if (operation.operation === "clear all-relay") return place.kind === "all-relay";
  const relay = "relay" in operation ? operation.relay : undefined;
  return relay === undefined || (place.kind === "slot" && place.to.fires === relay);
}

/** A memory without numbers that is nearly full takes as much as was cleared before. */
function needRoom({ model, from }: Change, steps: readonly Step[]): void {
  if (model.slots.addressing !== "unnumbered") return;
  let room = model.slots.capacity - from.slots.size;
  const clears = steps.filter(step => step.empties.some(place => place.kind === "slot"));
  const freed = clears.flatMap(step => step.empties.filter(place => place.kind === "slot").map(() => step));
  let next = 0;
  for (const step of steps) {
    if (step.writes?.kind !== "slot") continue;
    if (room > 0) room--;
    else {
      const clear = freed[next++];
      if (clear) step.needs.add(clear);
    }
  }
}

function cannotEmpty(model: Model, place: Place): string {
  const what = place.kind === "all-relay" ? "an all-relay code" : "a place";
  if (place.unknown) return `the model has no entry that clears ${what} of which nobody knows what it holds`;
  return model.rewrite === "refused" && holdsAny(place.to)
    ? `the model refuses to write into a taken place and has no entry that clears ${what}`
    : `the model has no entry that clears ${what}`;
}

function push<T>(index: Map<string, T[]>, key: string, value: T): void {
  const values = index.get(key);
  if (values) values.push(value);
  else index.set(key, [value]);
}
