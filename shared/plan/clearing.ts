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
      note(this.#codes, place.from.code, place);
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
  const chosen = new Map<Place, Clearing>();
  const wide = new Map<string, Clearing>();
  const stuck: Place[] = [];
  for (const place of wanted) {
    let best: { readonly clearing: Clearing; readonly cost: Cost } | undefined;
    for (const clearing of clearingsOf(model, place, holding)) {
      const cost = costOf(model, clearing, needed, effort);
      if (!cost) continue;
      if (clearing.takes.length > 1) wide.set(JSON.stringify(clearing.operation), clearing);
      if (!best || compareCosts(cost, best.cost) < 0) best = { clearing, cost };
    }
    if (best) chosen.set(place, best.clearing);
    else stuck.push(place);
  }
  for (const clearing of wide.values()) {
    const share = clearing.takes.filter(place => needed.has(place));
    const apart = new Map(
      share.flatMap(place => (chosen.get(place) ? [[JSON.stringify(chosen.get(place)?.operation), chosen.get(place)]] : [])),
    );
    const separately = sum([...apart.values()].flatMap(one => (one ? [costOf(model, one, needed, effort)] : [])));
    const together = costOf(model, clearing, needed, effort);
    if (together && separately && compareCosts(together, separately) < 0) for (const place of share) chosen.set(place, clearing);
  }
  const clearings = new Map([...chosen.values()].map(clearing => [JSON.stringify(clearing.operation), clearing]));
  return { clearings: [...clearings.values()], stuck };
}

/** Every entry of the model that empties a place. */
function clearingsOf(model: Model, place: Place, holding: Holding): readonly Clearing[] {
  const found: Clearing[] = [];
  const { code, tag, fires } = place.from;
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
    for (const operation of kept(model, place)) {
      const again = operation && effort(operation);
      if (!again) return undefined;
      cost = { tags: cost.tags + again.tags, entries: cost.entries + 1, keys: cost.keys + again.keys };
    }
  }
  return cost;
}

/** Halves that would not have been typed but for the clearing. */
function kept(model: Model, place: Place): readonly (Operation | undefined)[] {
  const { from, to } = place;
  const same = from.fires === to.fires;
  return [
    ...(same && from.code !== undefined && from.code === to.code ? [writing(model, place, "code")] : []),
    ...(same && from.tag !== undefined && from.tag === to.tag ? [writing(model, place, "tag")] : []),
  ];
}

function sum(costs: readonly (Cost | undefined)[]): Cost | undefined {
  let total: Cost = { tags: 0, entries: 0, keys: 0 };
  for (const cost of costs) {
    if (!cost) return undefined;
    total = { tags: total.tags + cost.tags, entries: total.entries + cost.entries, keys: total.keys + cost.keys };
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
