/**
 * Places of which nobody knows what they hold: what they may hold could be a twin of what is written, keep a code from firing, or
 * keep the installer code from entering. Where that can be, they are seen to first.
 *
 * Emptying an unknown place leads to a memory that the record allows as well, so that it can wake nothing that was known to be
 * asleep; and what it holds counts as open before, since nobody can say that it was not.
 */
import type { Element } from "../../grammar/tree.ts";
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { Memory } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { allRelayRelays } from "../keypad/open-strings.ts";
import { presentTag } from "../keypad/template-fields.ts";
import type { Place } from "./place.ts";
import type { Doors, LengthSteps } from "./sleepers.ts";
import type { PlaceSteps, Step } from "./steps.ts";

/** What an unknown place may make the keypad listen for: symbols, with a stand-in for any digit and any tag. */
type Shape = readonly string[];
const anyDigit = "any digit";
const anyTag = "any tag";

/** Adds to entries that unknown places are seen to before them, where what those hold could matter. */
export function needUnknownGone(
  model: Model,
  from: Memory,
  to: Memory,
  doors: Doors,
  places: readonly Place[],
  found: PlaceSteps,
  facts: LengthSteps,
): void {
  const entries = new Set<Step>();
  for (const place of places) {
    if (!place.unknown) continue;
    const { code, tag } = found.removers.get(place) ?? {};
    for (const entry of [code, tag]) if (entry) entries.add(entry);
  }
  if (entries.size === 0) return;
  const waiting = waitingFor(model, from, to, doors, places, found, facts);
  for (const entry of entries) waiting.delete(entry);
  if (waiting.size === 0) return;
  // One after the other, so that the last stands for all.
  let last: Step | undefined;
  for (const entry of [...entries].sort((one, other) => one.rank - other.rank)) {
    if (last) entry.needs.add(last);
    last = entry;
  }
  if (last) for (const entry of waiting) entry.needs.add(last);
}

function waitingFor(
  model: Model,
  from: Memory,
  to: Memory,
  doors: Doors,
  places: readonly Place[],
  found: PlaceSteps,
  { installer, length }: LengthSteps,
): Set<Step> {
  const waiting = new Set<Step>();
  const shapes = shapesOf(model, from, to, places);
  if (model.twins === "refused") for (const step of found.steps) if (step.writes) waiting.add(step);
  for (const place of places) {
    if (place.unknown) continue;
    const { code, tag } = found.removers.get(place) ?? {};
    if (!code && !tag) continue;
    const matters =
      model.twins === "first fires" || doors.from.at(place.id).some(({ symbols }) => shapes.some(shape => beats(model, symbols, shape)));
    if (!matters) continue;
    if (code) waiting.add(code);
    if (tag) waiting.add(tag);
  }
  if (length && model.relength === "keeps") waiting.add(length);
  const enter = doors.to.at("enter")[0];
  if (installer && enter && shapes.some(shape => beats(model, shape, enter.symbols) || matches(shape, enter.symbols)))
    waiting.add(installer);
  return waiting;
}

function shapesOf(model: Model, from: Memory, to: Memory, places: readonly Place[]): readonly Shape[] {
  const lengths = new Set([...codeLengthsInForce(model, from), ...codeLengthsInForce(model, to)]);
  const shapes = new Map<string, Shape>();
  const add = (operation: "open code" | "open all-relay" | "open tag" | "open both", relays: Iterable<string>) => {
    const template = model.operations.get(operation)?.template;
    if (!template) return;
    for (const relay of relays)
      for (const length of lengths) {
        const shape = shapeOf(model, template, relay, length);
        shapes.set(shape.join(" "), shape);
      }
  };
  const unknown = places.filter(place => place.unknown);
  const slots = unknown.filter(place => place.kind === "slot");
  const relays = slots.some(place => place.from.fires === undefined)
    ? model.relays.keys()
    : new Set(slots.flatMap(({ from: { fires } }) => fires ?? []));
  const fired = [...relays];
  add("open code", fired);
  add("open tag", fired);
  add("open both", fired);
  if (unknown.some(place => place.kind === "all-relay")) add("open all-relay", allRelayRelays(model));
  return [...shapes.values()];
}

function shapeOf(model: Model, template: readonly Element[], relay: string, length: number): Shape {
  return template.flatMap(element => {
    if (element.kind === "keys") return /^[0-9]+$/.test(element.text) ? [...element.text] : [element.text];
    if (element.kind === "hand") return element.text === presentTag ? [anyTag] : [`[${element.text}]`];
    const widths = element.width?.map(width => Number(width.text)) ?? [];
    switch (element.name.text) {
      case "code":
        return new Array<string>(length).fill(anyDigit);
      case "relay":
        return model.relays.get(relay) ?? [];
      case "relay-number":
        return [...relay.padStart(widths[0] ?? 0, "0")];
      default:
        // A tag's number typed without a width may have as many digits as its bits allow.
        return new Array<string>(widths.reduce((sum, width) => sum + width, 0) || String(2 ** model.tagBits - 1).length).fill(anyDigit);
    }
  });
}

/** The keypad acts on the shorter before the longer is complete. */
function beats(model: Model, shorter: readonly string[], longer: readonly string[]): boolean {
  if (model.acts !== "at once" || shorter.length >= longer.length) return false;
  const last = model.listens === "from the first key" ? 0 : longer.length - shorter.length;
  for (let from = 0; from <= last; from++) if (matches(shorter, longer.slice(from, from + shorter.length))) return true;
  return false;
}

function matches(one: readonly string[], other: readonly string[]): boolean {
  return one.length === other.length && one.every((symbol, at) => sameSymbol(symbol, other[at] ?? ""));
}

function sameSymbol(one: string, other: string): boolean {
  if (one === other) return true;
  const [wild, plain] = one.startsWith("any ") ? [one, other] : [other, one];
  if (wild === anyDigit) return /^[0-9]$/.test(plain);
  return wild === anyTag && plain.startsWith("tag:");
}
