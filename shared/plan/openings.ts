/**
 * What opens what while a memory is changed, place by place: the door recogniser's answer kept up to date, so that a plan of
 * thousands of entries can be proved entry by entry. The rules are those of `door.ts`; tests hold the two against each other.
 */
import type { Force } from "../keypad/lengths.ts";
import type { AllRelay, Digits, Memory, Slot } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { OpenString } from "../keypad/open-strings.ts";
import { openStrings, textOf } from "../keypad/open-strings.ts";
import { compareRelaySets, relaysOf } from "../keypad/relay-set.ts";

/** One string that a place makes the keypad listen for. */
export interface Listened extends OpenString {
  /** The symbols as one text; equal texts are equal strings. */
  readonly text: string;
  /** The slot's key, `all-relay` and a key, or `enter`. */
  readonly place: string;
  /** Among twins the lowest fires first. */
  readonly order: Order;
}

interface Order {
  readonly fires: string;
  readonly number: number;
  /** When it was typed, on memories without numbers. */
  readonly turn: number;
}

const noMaps = { allRelay: new Map(), releases: new Map(), settings: new Map(), slots: new Map() } as const;

export class Openings {
  readonly #model: Model;
  readonly #texts = new Map<string, Listened[]>();
  readonly #places = new Map<string, readonly Listened[]>();
  #force: Force = {};
  #turn = 0;

  constructor(model: Model, memory: Memory) {
    this.#model = model;
    const { installer, codeLength } = memory;
    this.#force = { ...(installer === undefined ? {} : { installer }), ...(codeLength === undefined ? {} : { codeLength }) };
    for (const slot of memory.slots.values()) this.setSlot(slot.key, slot);
    for (const [key, stored] of memory.allRelay) this.setAllRelay(key, stored);
    this.setInstaller(memory.installer);
  }

  /** @returns the texts for which something is listened now that was not before, or the other way round. */
  setSlot(key: string, slot: Slot | undefined): readonly string[] {
    const before = this.#places.get(key);
    const turn = this.#model.slots.addressing === "unnumbered" ? (before?.[0]?.order.turn ?? ++this.#turn) : 0;
    const order = { fires: slot?.fires ?? "0", number: slot?.number ?? 0, turn };
    return this.#replace(key, slot ? this.#strings({ slots: new Map([[key, slot]]) }, key, order) : []);
  }

  setAllRelay(key: string, stored: AllRelay | undefined): readonly string[] {
    const place = `all-relay ${key}`;
    const order = { fires: "0", number: stored?.number ?? 0, turn: 0 };
    return this.#replace(place, stored ? this.#strings({ allRelay: new Map([[key, stored]]) }, place, order) : []);
  }

  /** The string that enters programming mode. */
  setInstaller(installer: Digits | undefined): readonly string[] {
    const { codeLength } = this.#force;
    this.#force = { ...(installer === undefined ? {} : { installer }), ...(codeLength === undefined ? {} : { codeLength }) };
    const order = { fires: "0", number: 0, turn: 0 };
    const strings = openStrings(this.#model, { ...noMaps, ...this.#force }).strings.filter(one => one.stored.is === "enter");
    return this.#replace(
      "enter",
      strings.map(one => listened(one, "enter", order)),
    );
  }

  /** What a place makes the keypad listen for. */
  at(place: string): readonly Listened[] {
    return this.#places.get(place) ?? [];
  }

  /** All that is listened for, `enter` left out. */
  *all(): Iterable<Listened> {
    for (const [place, strings] of this.#places) if (place !== "enter") yield* strings;
  }

  /** Single relays that fire when this is keyed or presented. */
  fires({ text, symbols }: Pick<Listened, "text" | "symbols">): readonly string[] {
    const ends = this.#texts.get(text);
    if (!ends || this.beatenBy(symbols)) return [];
    return [...new Set(this.#heard(ends).flatMap(end => (end.fires === undefined ? [] : relaysOf(end.fires).filter(relay => relay))))];
  }

  /** Whether the string of a place is the one that fires, and not that of a twin before it. */
  isHeard(string: Listened): boolean {
    return this.#heard(this.#texts.get(string.text) ?? []).includes(string);
  }

  /** Of equal strings those that are listened for. */
  #heard(ends: readonly Listened[]): readonly Listened[] {
    if (this.#model.twins !== "first fires" || ends.length < 2) return ends;
    const first = new Map<string, Listened>();
    for (const end of ends) {
      const rival = first.get(end.how);
      if (!rival || comesBefore(end, rival)) first.set(end.how, end);
    }
    return [...first.values()];
  }

  /** The text of a shorter string on which the keypad acts before this one is complete. */
  beatenBy(symbols: readonly string[]): string | undefined {
    for (const text of rivalsOf(this.#model, symbols)) if (this.#texts.has(text)) return text;
    return undefined;
  }

  /** All of what is listened for under one text. */
  ends(text: string): readonly Listened[] {
    return this.#texts.get(text) ?? [];
  }

  /** Places that keep a string from entering programming mode. */
  blocking(enter: Listened): readonly Listened[] {
    const rivals = rivalsOf(this.#model, enter.symbols).flatMap(text => this.ends(text));
    return [...rivals, ...this.ends(enter.text)].filter(one => one.place !== "enter");
  }

  /** What a slot would make the keypad listen for, were it stored. */
  wouldListen(slot: Slot): readonly Listened[] {
    return this.#strings({ slots: new Map([[slot.key, slot]]) }, slot.key, { fires: slot.fires ?? "0", number: slot.number ?? 0, turn: 0 });
  }

  #strings(part: Partial<Memory>, place: string, order: Order): readonly Listened[] {
    const { strings } = openStrings(this.#model, { ...noMaps, ...this.#force, ...part });
    return strings.filter(one => one.stored.is !== "enter").map(one => listened(one, place, order));
  }

  #replace(place: string, after: readonly Listened[]): readonly string[] {
    const before = this.#places.get(place) ?? [];
    const changed = new Set<string>();
    for (const one of before) {
      const left = (this.#texts.get(one.text) ?? []).filter(other => other !== one);
      if (left.length > 0) this.#texts.set(one.text, left);
      else this.#texts.delete(one.text);
      changed.add(one.text);
    }
    for (const one of after) {
      this.#texts.set(one.text, [...(this.#texts.get(one.text) ?? []), one]);
      changed.add(one.text);
    }
    if (after.length > 0) this.#places.set(place, after);
    else this.#places.delete(place);
    return [...changed];
  }
}

/** Texts of the shorter strings that would be acted on before this one is complete, were they listened for. */
export function rivalsOf(model: Model, symbols: readonly string[]): readonly string[] {
  if (model.acts !== "at once") return [];
  const texts: string[] = [];
  for (let from = 0; from < symbols.length; from++) {
    if (from > 0 && model.listens === "from the first key") break;
    let text = "";
    for (let to = from; to < symbols.length; to++) {
      text += `${text === "" ? "" : " "}${symbols[to]}`;
      if (to - from + 1 < symbols.length) texts.push(text);
    }
  }
  return texts;
}

/** Pairs of what is keyed or presented and a relay. */
export class Pairs {
  readonly #relays = new Map<string, Set<string>>();

  add(openings: Openings): this {
    for (const string of openings.all())
      for (const relay of openings.fires(string)) {
        const relays = this.#relays.get(string.text);
        if (relays) relays.add(relay);
        else this.#relays.set(string.text, new Set([relay]));
      }
    return this;
  }

  has(text: string, relay: string): boolean {
    return this.#relays.get(text)?.has(relay) ?? false;
  }

  /** Some relay that the string would fire is not among them. */
  lacks({ text, fires }: Pick<Listened, "text" | "fires">): boolean {
    return fires !== undefined && relaysOf(fires).some(relay => relay !== "" && !this.has(text, relay));
  }

  /** As `opens` of the door recogniser writes it, for comparison. */
  asText(openings: Openings): ReadonlyMap<string, readonly string[]> {
    const texts = new Map<string, readonly string[]>();
    for (const { text, symbols } of openings.all()) {
      const relays = this.#relays.get(text);
      if (relays)
        texts.set(
          textOf(symbols),
          [...relays].sort((a, b) => Number(a) - Number(b)),
        );
    }
    return texts;
  }
}

function listened(string: OpenString, place: string, order: Order): Listened {
  return { ...string, text: string.symbols.join(" "), place, order };
}

/** Lowest relay, then lowest number; without numbers the one typed first. Of all-relay codes the lowest number. */
function comesBefore({ order: one, fires }: Listened, { order: other, fires: rival }: Listened): boolean {
  if (one.turn !== other.turn) return one.turn < other.turn;
  const lowest = Number.parseInt(one.fires, 10) - Number.parseInt(other.fires, 10);
  return (lowest || one.number - other.number || compareRelaySets(fires ?? "", rival ?? "")) < 0;
}
