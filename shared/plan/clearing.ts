/** How places are emptied: entries that take one place, and entries that take every place that holds a code or tag. */
import type { Operation } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { asks, relayField, writing } from "./operation-of.ts";
import type { Place } from "./place.ts";
import { holdsAny } from "./place.ts";

/** One entry that empties places. */
export interface Clearing {
  readonly operation: Operation;
  /** All that it empties: what is asked for and what goes with it. */
  readonly takes: readonly Place[];
}

/** What typing an operation costs: tags to be presented first, then keys. */
export interface Effort {
  readonly tags: number;
  readonly keys: number;
}

/** Where each code and tag stands before. */
export class Holding {
  readonly #codes = new Map<string, Place[]>();
  readonly #tags = new Map<string, Place[]>();
  readonly allRelay: readonly Place[];

  constructor(places: readonly Place[]) {
    for (const place of places) {
      note(this.#codes, place.from.code ?? place.passing, place);
      note(this.#tags, place.from.tag, place);
    }
    this.allRelay = places.filter(place => place.kind === "all-relay" && (holdsAny(place.from) || place.unknown));
  }

  code(digits: string | undefined): readonly Place[] {
    return (digits !== undefined && this.#codes.get(digits)) || [];
  }

  tag(tag: string | undefined): readonly Place[] {
    return (tag !== undefined && this.#tags.get(tag)) || [];
  }
}

/**
 * The cheapest entries that empty all of `wanted`.
 *
 * An entry that clears by code or tag also takes other places that hold it; what the text wants there is written again, and
 * counts. Fewest tags first, then entries, then keys.
 *
 * @param effort what typing an operation costs; undefined where it cannot be done (a lost tag to be presented).
 * @returns the entries, each place of `wanted` in one of them, and the places that no entry empties.
 */
export function clearingsFor(
  model: Model,
  wanted: readonly Place[],
  holding: Holding,
  effort: (operation: Operation) => Effort | undefined,
): { readonly clearings: readonly Clearing[]; readonly stuck: readonly Place[] } {
  const needed = new Set(wanted);
  const chosen = new Chosen();
  const wide = new Map<string, Clearing>();
  const stuck: Place[] = [];
  for (const place of wanted) {
    let best: { readonly clearing: Clearing; readonly cost: Cost } | undefined;
    for (const clearing of clearingsOf(model, place, holding)) {
      const cost = costOf(model, clearing, needed, effort);
      if (!cost) continue;
      if (clearing.takes.length > 1) wide.set(keyOf(clearing), clearing);
      if (!best || compareCosts(cost, best.cost) < 0) best = { clearing, cost };
    }
    if (best) chosen.choose(best.clearing, [place]);
    else stuck.push(place);
  }
  const cost = (clearing: Clearing) => costOf(model, clearing, needed, effort);
  for (const { places, clearings } of linked(wide, needed)) {
    if (places.length <= fewPlaces) {
      const best = cheapest(
        places.map(place => clearingsOf(model, place, holding)),
        cost,
      );
      best?.forEach((clearing, at) => {
        chosen.choose(clearing, places.slice(at, at + 1));
      });
    } else
      for (const clearing of clearings) {
        const share = clearing.takes.filter(place => needed.has(place));
        const [together, apart] = [cost(clearing), sum(chosen.onlyFor(share).map(cost))];
        if (together && apart && compareCosts(together, apart) < 0) chosen.choose(clearing, share);
      }
  }
  return { clearings: chosen.all(), stuck };
}

/** Up to so many places that hold the same codes and tags every choice of entries is tried: 3 to the power of this. */
const fewPlaces = 6;

/** Places that have a code or tag in common, directly or through others, with the entries that take several of them. */
function linked(
  wide: ReadonlyMap<string, Clearing>,
  needed: ReadonlySet<Place>,
): readonly { readonly places: readonly Place[]; readonly clearings: readonly Clearing[] }[] {
  const at = new Map<Place, Clearing[]>();
  for (const clearing of wide.values())
    for (const place of clearing.takes) if (needed.has(place)) at.set(place, [...(at.get(place) ?? []), clearing]);
  const groups: { places: readonly Place[]; clearings: readonly Clearing[] }[] = [];
  const seen = new Set<Place>();
  for (const start of at.keys()) {
    if (seen.has(start)) continue;
    const places = new Set([start]);
    const clearings = new Set<Clearing>();
    for (const place of places)
      for (const clearing of at.get(place) ?? []) {
        clearings.add(clearing);
        for (const other of clearing.takes) if (needed.has(other)) places.add(other);
      }
    for (const place of places) seen.add(place);
    groups.push({ places: [...places], clearings: [...clearings] });
  }
  return groups;
}

/** One entry for each place, those that are the same counted once; undefined where a place has none that can be typed. */
function cheapest(
  ways: readonly (readonly Clearing[])[],
  costOf: (clearing: Clearing) => Cost | undefined,
): readonly Clearing[] | undefined {
  let best: { readonly clearings: readonly Clearing[]; readonly cost: Cost } | undefined;
  const choose = (at: number, clearings: readonly Clearing[], keys: ReadonlySet<string>, cost: Cost) => {
    if (best && compareCosts(cost, best.cost) >= 0) return;
    const options = ways[at];
    if (!options) best = { clearings, cost };
    else
      for (const clearing of options) {
        const key = keyOf(clearing);
        const own = keys.has(key) ? nothing : costOf(clearing);
        if (own) choose(at + 1, [...clearings, clearing], new Set([...keys, key]), plus(cost, own));
      }
  };
  choose(0, [], new Set(), nothing);
  return best?.clearings;
}

/** Which entry empties which places. */
class Chosen {
  readonly #ofPlace = new Map<Place, string>();
  readonly #uses = new Map<string, { readonly clearing: Clearing; readonly places: Set<Place> }>();

  choose(clearing: Clearing, places: readonly Place[]): void {
    const key = keyOf(clearing);
    for (const place of places) {
      const before = this.#ofPlace.get(place);
      if (before !== undefined) this.#uses.get(before)?.places.delete(place);
      this.#ofPlace.set(place, key);
      const use = this.#uses.get(key);
      if (use) use.places.add(place);
      else this.#uses.set(key, { clearing, places: new Set([place]) });
    }
  }

  /** Entries that would not be typed, were these places emptied otherwise. */
  onlyFor(places: readonly Place[]): readonly Clearing[] {
    const among = new Set(places);
    const keys = new Set(places.flatMap(place => this.#ofPlace.get(place) ?? []));
    return [...keys].flatMap(key => {
      const use = this.#uses.get(key);
      return use && [...use.places].every(place => among.has(place)) ? [use.clearing] : [];
    });
  }

  all(): readonly Clearing[] {
    return [...this.#uses.values()].filter(({ places }) => places.size > 0).map(({ clearing }) => clearing);
  }
}

function keyOf({ operation }: Clearing): string {
  return JSON.stringify(operation);
}

/** Every entry of the model that empties a place. */
function clearingsOf(model: Model, place: Place, holding: Holding): readonly Clearing[] {
  const found: Clearing[] = [];
  const { tag, fires } = place.from;
  const code = place.from.code ?? place.passing;
  const slot = place.number === undefined ? {} : { slot: place.number };
  if (place.kind === "all-relay" && model.operations.has("clear all-relay")) {
    if (asks(model, "clear all-relay", "slot")) found.push({ operation: { operation: "clear all-relay", ...slot }, takes: [place] });
    else if (asks(model, "clear all-relay", "code")) {
      const takes = holding.allRelay.filter(other => other.from.code === code);
      if (code !== undefined) found.push({ operation: { operation: "clear all-relay", code }, takes });
    } else found.push({ operation: { operation: "clear all-relay" }, takes: holding.allRelay });
  }
  if (place.kind === "slot" && model.operations.has("clear slot") && model.slots.addressing !== "unnumbered") {
    const relay = relayField(model, "clear slot", fires ?? place.to.fires ?? anyRelay(model));
    const operation: Operation = { operation: "clear slot", ...relay, ...(asks(model, "clear slot", "slot") ? slot : {}) };
    found.push({ operation, takes: [place] });
  }
  if (code !== undefined && model.operations.has("clear code")) {
    const relay = relayField(model, "clear code", fires);
    const only = (other: Place) => relay.relay === undefined || (other.kind === "slot" && other.from.fires === relay.relay);
    const takes = holding.code(code).filter(only);
    if (takes.includes(place)) found.push({ operation: { operation: "clear code", ...relay, code }, takes });
  }
  if (tag !== undefined && model.operations.has("clear tag")) {
    const relay = relayField(model, "clear tag", fires);
    const takes = holding.tag(tag).filter(other => relay.relay === undefined || other.from.fires === relay.relay);
    if (takes.includes(place)) found.push({ operation: { operation: "clear tag", ...relay, tag }, takes });
  }
  return found;
}

interface Cost {
  readonly tags: number;
  readonly entries: number;
  readonly keys: number;
}

/** Of the entry itself, and of writing again what it takes and the text wants kept. */
function costOf(
  model: Model,
  clearing: Clearing,
  needed: ReadonlySet<Place>,
  effort: (operation: Operation) => Effort | undefined,
): Cost | undefined {
  const own = effort(clearing.operation);
  if (!own) return undefined;
  let cost: Cost = { tags: own.tags, entries: 1, keys: own.keys };
  for (const place of clearing.takes) {
    if (needed.has(place)) continue;
    for (const operation of kept(model, place, clearing.operation)) {
      const again = operation && effort(operation);
      if (!again) return undefined;
      cost = plus(cost, { ...again, entries: 1 });
    }
  }
  return cost;
}

/** Whether a place gives up what is cleared by writing over it: then that is done first, and the clearing does not take it. */
export function isWrittenFirst({ from, to, unknown }: Place, { operation }: Operation): boolean {
  if (unknown) return false;
  const half = operation === "clear tag" ? "tag" : "code";
  return to[half] !== undefined && to[half] !== from[half];
}

/** Halves that would not have been typed but for the clearing. */
function kept(model: Model, place: Place, operation: Operation): readonly (Operation | undefined)[] {
  if (isWrittenFirst(place, operation)) return [];
  const { from, to } = place;
  const same = from.fires === to.fires;
  return [
    ...(same && from.code !== undefined && from.code === to.code ? [writing(model, place, "code")] : []),
    ...(same && from.tag !== undefined && from.tag === to.tag ? [writing(model, place, "tag")] : []),
  ];
}

const nothing: Cost = { tags: 0, entries: 0, keys: 0 };

function plus(one: Cost, other: Cost): Cost {
  return { tags: one.tags + other.tags, entries: one.entries + other.entries, keys: one.keys + other.keys };
}

function sum(costs: readonly (Cost | undefined)[]): Cost | undefined {
  let total = nothing;
  for (const cost of costs) {
    if (!cost) return undefined;
    total = plus(total, cost);
  }
  return total;
}

function compareCosts(one: Cost, other: Cost): number {
  return one.tags - other.tags || one.entries - other.entries || one.keys - other.keys;
}

/** A relay to type where nobody knows what the place fires. */
function anyRelay(model: Model): string | undefined {
  for (const relay of model.relays.keys()) return relay;
  return undefined;
}

function note(index: Map<string, Place[]>, content: string | undefined, place: Place): void {
  if (content === undefined) return;
  const places = index.get(content);
  if (places) places.push(place);
  else index.set(content, [place]);
}
