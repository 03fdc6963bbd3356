/** What is typed into one place: whether it is emptied first, and which halves are written, in which order. */
import type { Model } from "../keypad/model.ts";
import type { Content, Half, Place } from "./place.ts";
import { holdsAny, isChanged } from "./place.ts";

export interface Writes {
  /** The place must be empty before anything is written, or stay empty. */
  readonly emptied: boolean;
  readonly halves: readonly Half[];
  /** The second half must not be written before the first: what would stand there meanwhile opens something that nobody wants. */
  readonly inOrder: boolean;
}

const nothing: Writes = { emptied: false, halves: [], inOrder: false };

/** What a place may hold while half of it is written and the other half is not. */
export interface Meanwhile {
  /** It opens nothing but what opened before or is wanted to open. */
  readonly harmless: (content: Content) => boolean;
  /** What it would open besides is kept from firing by other places, which can wait until this one is done. */
  readonly kept: (place: Place, content: Content) => boolean;
}

/**
 * The fewest entries for one place on its own.
 *
 * @param emptied it is emptied anyway: everything that it is to hold is written.
 */
export function writesFor(model: Model, place: Place, emptied: boolean, meanwhile: Meanwhile): Writes {
  if (emptied) return fromEmpty(place.to);
  if (!isChanged(place)) return nothing;
  if (mustBeEmptied(model, place)) return fromEmpty(place.to);
  const halves = changedHalves(place);
  if (halves.length < 2 || !holdsAny(place.from)) {
    const only = halves[0];
    return only === undefined || isHarmless(model, place, only, meanwhile.harmless)
      ? { emptied: false, halves, inOrder: false }
      : fromEmpty(place.to);
  }
  const first = firstHalves(model, place, halves, meanwhile);
  if (first.length === 0) return fromEmpty(place.to);
  const second = halves.filter(half => !first.includes(half));
  return { emptied: false, halves: [...first, ...second], inOrder: second.length > 0 };
}

/** Of two halves those that may be written before the other. */
function firstHalves(model: Model, place: Place, halves: readonly Half[], { harmless, kept }: Meanwhile): readonly Half[] {
  const first = halves.filter(half => isHarmless(model, place, half, harmless));
  // With its tag the place fires another relay: the code that is about to wake wakes there.
  if (place.wakes && place.from.fires !== place.to.fires && first.includes("tag")) return ["tag"];
  if (first.length > 0) return first;
  return halves.filter(half => isHarmless(model, place, half, content => kept(place, content))).slice(0, 1);
}

function fromEmpty({ code, tag }: Content): Writes {
  const halves: Half[] = [...(code === undefined ? [] : ["code" as const]), ...(tag === undefined ? [] : ["tag" as const])];
  return { emptied: true, halves, inOrder: false };
}

function mustBeEmptied(model: Model, place: Place): boolean {
  const { from, to, kind, unknown } = place;
  if (!holdsAny(to)) return true;
  const paired = kind === "slot" && model.slots.holds !== "one";
  if (unknown) return model.twins === "refused" || isKept(model, place) || (paired && !isOverwritten(model, to));
  if (!holdsAny(from)) return false;
  if (paired && ((from.code !== undefined && to.code === undefined) || (from.tag !== undefined && to.tag === undefined))) return true;
  if (!isKept(model, place)) return false;
  if (!paired) return true;
  return from.fires !== to.fires || changedHalves(place).some(half => from[half] !== undefined);
}

/** A taken place refuses to be written. An all-relay code without a number is always replaced; without numbers there is no place to take. */
function isKept(model: Model, place: Place): boolean {
  if (model.rewrite === "replaces" || model.slots.addressing === "unnumbered") return false;
  return place.kind === "slot" || place.number !== undefined;
}

/** Both halves are written, each on its own, and the place can fire nothing but its relay: nothing unknown is left. */
function isOverwritten(model: Model, to: Content): boolean {
  return model.slots.holds === "code or tag" && model.slots.addressing !== "shared" && to.code !== undefined && to.tag !== undefined;
}

/**
 * Where only what the place fires changes, either half says so. The code needs no tag in the room; one that is about to wake is
 * too late, since it cannot be written before it does.
 */
function changedHalves({ from, to, unknown, wakes }: Place): readonly Half[] {
  const halves: Half[] = [];
  if (to.code !== undefined && (unknown || to.code !== from.code)) halves.push("code");
  if (to.tag !== undefined && (unknown || to.tag !== from.tag)) halves.push("tag");
  if (halves.length > 0) return halves;
  return [to.code === undefined || (wakes && to.tag !== undefined) ? "tag" : "code"];
}

/** With this half written and the other as it was, nothing opens that did not before and is not wanted. */
function isHarmless(model: Model, place: Place, half: Half, harmless: Meanwhile["harmless"]): boolean {
  const { from, to } = place;
  if (place.kind === "all-relay" || model.slots.holds === "one") return true;
  const other = half === "code" ? "tag" : "code";
  if (from[other] === undefined || from[other] === to[other]) return true;
  return harmless(halfWritten(place, half));
}

/** What a place holds with one half written and the other as it was. */
export function halfWritten({ from, to }: Place, half: Half): Content {
  const other = half === "code" ? "tag" : "code";
  return { [half]: to[half], [other]: from[other], ...(to.fires === undefined ? {} : { fires: to.fires }) };
}
