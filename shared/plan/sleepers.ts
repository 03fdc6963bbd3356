/** What is stored and asleep: it must be gone before whatever keeps it asleep. */
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { Digits, Memory, Slot } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { Listened } from "./openings.ts";
import { comesBefore, Openings, Pairs, rivalsOf } from "./openings.ts";
import { asks } from "./operation-of.ts";
import { withNeeds } from "./order.ts";
import type { Content, Half, Place } from "./place.ts";
import type { PlaceSteps, Step } from "./steps.ts";
import { endsFiring } from "./steps.ts";
import { halfWritten } from "./writes.ts";

/** The two memories as doors, and what may open meanwhile. */
export interface Doors {
  /** As fitted. */
  readonly before: Openings;
  /** When the first place is written: without the codes that a new length takes. */
  readonly from: Openings;
  readonly to: Openings;
  /** What opened in the memory that was fitted, and what is wanted to open. */
  readonly allowed: Pairs;
  /** What is wanted to open. */
  readonly wanted: Pairs;
}

/** @param from what is stored when the first place is written: without the codes that a new length takes. */
export function doorsOf(model: Model, before: Memory, from: Memory, to: Memory): Doors {
  const fitted = new Openings(model, before);
  const next = new Openings(model, to);
  return {
    before: fitted,
    from: from === before ? fitted : new Openings(model, from),
    to: next,
    allowed: new Pairs().add(fitted).add(next),
    wanted: new Pairs().add(next),
  };
}

/** Entries that the whole keypad's facts are changed by, as far as they wake or put to sleep. */
export interface LengthSteps {
  readonly installer?: Step;
  /** The entry with which codes of the new length are listened for: that of the length, or the installer code's where it follows. */
  readonly length?: Step;
}

/**
 * Adds to entries what must have been taken before them, so that nothing asleep wakes and the installer code always enters.
 * Several things may keep one asleep: one of them is its guard, and only the guard's entry waits.
 */
export function needSleepersGone(
  model: Model,
  from: Memory,
  to: Memory,
  doors: Doors,
  places: ReadonlyMap<string, Place>,
  found: PlaceSteps,
  facts: LengthSteps,
): void {
  const stage = new Stage(model, doors, places, found, facts);
  for (const string of doors.from.all()) if (doors.allowed.lacks(string)) stage.leaves(string);
  for (const [place, own] of found.writers) if (own.code && own.tag) stage.changesInHalves(place, own.code, own.tag);
  if (facts.length && model.relength === "keeps") stage.wakesByLength(from, to);
  if (facts.installer) stage.installerChanges(facts.installer, to);
}

/** Codes that would fire again with the new length though nobody wants that, where a keypad keeps codes of another length. */
export function wokenCodes(model: Model, from: Memory, to: Memory, allowed: Pairs): ReadonlySet<Digits> {
  const codes = new Set<Digits>();
  const awake = new Openings(model, { ...from, ...lengthOf(to) });
  for (const string of wakingStrings(model, from, to, awake)) {
    const code = codeAt(from, string.place);
    if (code !== undefined && allowed.lacks(string) && awake.isHeard(string) && awake.fires(string).length > 0) codes.add(code);
  }
  return codes;
}

/** What codes and all-relay codes make the keypad listen for with the new length, and did not with the old. */
function* wakingStrings(model: Model, from: Memory, to: Memory, awake: Openings): Iterable<Listened> {
  const [before, now] = [codeLengthsInForce(model, from), codeLengthsInForce(model, to)];
  for (const string of awake.all()) {
    const code = codeAt(from, string.place);
    if (code !== undefined && halfOf(string) !== "tag" && now.includes(code.length) && !before.includes(code.length)) yield string;
  }
}

/**
 * Codes by which no place may be cleared before a new length takes them: they keep something else asleep, which goes with that
 * length too.
 */
export function guardingCodes(model: Model, before: Memory, doors: Doors): ReadonlySet<Digits> {
  const codes = new Set<Digits>();
  for (const string of doors.before.all()) {
    if (!doors.allowed.lacks(string)) continue;
    const rivals = rivalsOf(model, string.symbols).flatMap(text => doors.before.ends(text));
    for (const rival of [...rivals, ...doors.before.ends(string.text)]) {
      const code = codeAt(before, rival.place);
      if (code === undefined || rival.place === string.place) continue;
      if (code !== codeAt(before, string.place) || asks(model, "clear code", "relay")) codes.add(code);
    }
  }
  return codes;
}

/** By the name that the openings have for a place. */
function codeAt({ slots, allRelay }: Memory, place: string): Digits | undefined {
  return slots.get(place)?.code ?? allRelay.get(place.replace("all-relay ", ""))?.code;
}

/** What keeps a place that is half written from firing what it should not, until that is written or since something else is. */
interface Guards {
  readonly until: readonly Listened[];
  readonly since: readonly Listened[];
}

/**
 * @param places by the name that the openings have for each; on what an unknown one holds nothing relies.
 * @param length a new length puts to sleep what is not of it.
 */
export function guardsOf(model: Model, { from, to }: Doors, places: ReadonlyMap<string, Place>, string: Listened, length: boolean): Guards {
  const others = (openings: Openings) =>
    rivalsIn(model, openings, string).filter(({ place }) => place !== string.place && places.get(place)?.unknown === false);
  return { until: others(from).filter(rival => !length || halfOf(rival) === "tag"), since: others(to) };
}

/** What beats a string, or comes before it as its twin. */
function rivalsIn(model: Model, openings: Openings, string: Listened): readonly Listened[] {
  const shorter = rivalsOf(model, string.symbols).flatMap(text => openings.ends(text));
  const twins = model.twins === "first fires" ? openings.ends(string.text) : [];
  // Without numbers the one typed first fires: what is written meanwhile comes after what is there.
  const typed = model.slots.addressing !== "unnumbered" || twins.includes(string);
  return [...shorter, ...twins.filter(one => typed && one !== string && one.how === string.how && comesBefore(one, string))];
}

class Stage {
  readonly #model: Model;
  readonly #doors: Doors;
  readonly #places: ReadonlyMap<string, Place>;
  readonly #found: PlaceSteps;
  readonly #facts: LengthSteps;

  constructor(model: Model, doors: Doors, places: ReadonlyMap<string, Place>, found: PlaceSteps, facts: LengthSteps) {
    this.#model = model;
    this.#doors = doors;
    this.#places = places;
    this.#found = found;
    this.#facts = facts;
  }

  /** Something asleep before that nobody wants: whatever guards it waits until it is gone. */
  leaves(string: Listened): void {
    const gone = this.#remover(string);
    if (!gone) return;
    const guards = this.#rivals(this.#doors.from, string).map(rival => ({ rival, entry: this.#remover(rival) }));
    // What kept it asleep goes with the codes that a new length takes.
    if (guards.length === 0 && this.#facts.length && this.#doors.before !== this.#doors.from) this.#facts.length.needs.add(gone);
    if (guards.some(({ rival, entry }) => entry === undefined || entry === gone || this.#followedByRival(rival, string))) return;
    this.#wait(
      guards.flatMap(({ entry }) => entry ?? []),
      gone,
    );
  }

  /** While one half is written and the other is not, what keeps the place from firing waits for the other. */
  changesInHalves(place: Place, code: Step, tag: Step): void {
    const [half, first, second] = tag.needs.has(code) ? (["code", code, tag] as const) : (["tag", tag, code] as const);
    if (!second.needs.has(first)) return;
    for (const string of this.#doors.to.wouldListen(slotOf(place, halfWritten(place, half)))) {
      if (!this.#doors.allowed.lacks(string)) continue;
      const { until, since } = guardsOf(this.#model, this.#doors, this.#places, string, this.#facts.length !== undefined);
      const removers = until.map(rival => this.#remover(rival));
      if (removers.includes(undefined) || until.some(rival => this.#followedByRival(rival, string))) continue;
      const [stays] = since;
      const other = stays && this.#places.get(stays.place);
      if (removers.length > 0)
        this.#wait(
          removers.flatMap(entry => entry ?? []),
          second,
        );
      else if (other) for (const step of Object.values(this.#found.writers.get(other) ?? {})) first.needs.add(step);
    }
  }

  /** Codes of the new length that were kept, and are listened for again. */
  wakesByLength(from: Memory, to: Memory): void {
    const { length } = this.#facts;
    const awake = new Openings(this.#model, { ...from, ...lengthOf(to) });
    for (const string of wakingStrings(this.#model, from, to, awake)) {
      const gone = this.#doors.allowed.lacks(string) ? this.#remover(string) : undefined;
      if (!length || !gone) continue;
      const guards = this.#rivals(awake, string).map(rival => this.#remover(rival));
      if (guards.length === 0) length.needs.add(gone);
      else if (!guards.includes(undefined) && !guards.includes(gone))
        this.#wait(
          guards.flatMap(entry => entry ?? []),
          gone,
        );
    }
  }

  /** A new installer code is typed when nothing blocks it, and what would block the old one is written after it. */
  installerChanges(installer: Step, to: Memory): void {
    const [now] = this.#doors.from.at("enter");
    const [next] = this.#doors.to.at("enter");
    // A code of the old length sleeps from the moment that the new installer code is in force, where the length follows it.
    const inForce = installer === this.#facts.length ? codeLengthsInForce(this.#model, to) : undefined;
    const sleeps = (string: Listened) => {
      const code = halfOf(string) === "tag" ? undefined : this.#places.get(string.place)?.from.code;
      return code !== undefined && inForce !== undefined && !inForce.includes(code.length);
    };
    if (next) for (const string of this.#doors.before.blocking(next)) if (!sleeps(string)) this.#mustBeGone(string, installer);
    if (this.#doors.before !== this.#doors.from && now)
      for (const string of this.#doors.before.all())
        if (this.#doors.allowed.lacks(string) && rivalsOf(this.#model, string.symbols).includes(now.text))
          this.#mustBeGone(string, installer);
    if (now)
      for (const string of this.#doors.to.blocking(now)) {
        // What was stored before and not listened for comes with the new length.
        const waking = this.#doors.from.at(string.place).some(one => one.text === string.text) ? undefined : this.#facts.length;
        const writer = this.#writer(string) ?? waking;
        if (writer && writer !== installer) writer.needs.add(installer);
      }
  }

  /** Cleared, written over, or taken by a new length before the installer code changes. */
  #mustBeGone(string: Listened, installer: Step): void {
    const gone = this.#doors.from.at(string.place).some(one => one.text === string.text) ? this.#remover(string) : this.#facts.length;
    if (gone && gone !== installer) installer.needs.add(gone);
  }

  #rivals(openings: Openings, string: Listened): readonly Listened[] {
    return rivalsIn(this.#model, openings, string);
  }

  /** The entry after which a string is no longer stored; undefined where it stays. */
  #remover(string: Listened): Step | undefined {
    if (string.place === "enter") return this.#facts.installer;
    const place = this.#places.get(string.place);
    return place && endsFiring(this.#found, place, halfOf(string));
  }

  /** The entry that stores it; undefined where it is stored from the beginning. */
  #writer(string: Listened): Step | undefined {
    if (string.place === "enter") return this.#facts.installer;
    const place = this.#places.get(string.place);
    const { code, tag } = (place && this.#found.writers.get(place)) ?? {};
    const half = halfOf(string);
    return half === "both" ? (code ?? tag) : half === "code" ? code : tag;
  }

  /** What is written in place of a rival, with the same entry, beats the string as well. */
  #followedByRival(rival: Listened, string: Listened): boolean {
    const entry = this.#remover(rival);
    return this.#rivals(this.#doors.to, string).some(next => next.place === rival.place && this.#writer(next) === entry);
  }

  /** One of the guards waits: one that the other does not wait for itself, where there is one. */
  #wait(guards: readonly Step[], safe: Step): void {
    const needed = withNeeds([safe]);
    const guard = guards.find(entry => !needed.has(entry)) ?? guards[0];
    if (!guard || guard === safe) return;
    guard.needs.add(safe);
    // A pair of which both halves are needed stops firing with whichever half is written first.
    const halves = this.#model.slots.holds === "code with tag" && guard.writes ? this.#found.writers.get(guard.writes) : undefined;
    for (const half of [halves?.code, halves?.tag])
      if (half && half !== guard && half !== safe && !withNeeds([half]).has(guard)) half.needs.add(safe);
  }
}

/** A place that holds this, as the memory has it. */
export function slotOf({ id, number }: Place, content: Content): Slot {
  return { key: id, ...(number === undefined ? {} : { number }), ...content };
}

/** Which half of its place a string is made of. */
export function halfOf({ stored }: Listened): Half | "both" {
  return stored.is === "slot" ? stored.half : "code";
}

function lengthOf({ installer, codeLength }: Memory): Pick<Memory, "installer" | "codeLength"> {
  return { ...(installer === undefined ? {} : { installer }), ...(codeLength === undefined ? {} : { codeLength }) };
}
