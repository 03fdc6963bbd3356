/**
 * What opens what while a memory is changed, place by place: the door recogniser's answer kept up to date, so that a plan of
 * thousands of entries can be proved entry by entry. The rules are those of `door.ts`; tests hold the two against each other.
 */
import type { Force } from "../keypad/lengths.ts";
import type { AllRelay, Digits, Memory, Slot } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { OpenString } from "../keypad/open-strings.ts";
import { openStrings } from "../keypad/open-strings.ts";
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

const plainOrder: Order = { fires: "0", number: 0, turn: 0 };
const noMaps = { allRelay: new Map(), releases: new Map(), settings: new Map(), slots: new Map() } as const;

export class Openings {
  readonly #model: Model;
  readonly #texts = new Map<string, Listened[]>();
  readonly #places = new Map<string, Listened[]>();
  #force: Force = {};
  #turn = 0;

  constructor(model: Model, memory: Memory) {
    this.#model = model;
    const { installer, codeLength } = memory;
    this.#force = { ...(installer === undefined ? {} : { installer }), ...(codeLength === undefined ? {} : { codeLength }) };
    // Twins are told apart here, place by place, so that one still listens when another goes.
    const { strings } = openStrings(model.twins === "first fires" ? { ...model, twins: "all fire" } : model, memory);
    const turns = new Map<string, number>();
    if (model.slots.addressing === "unnumbered") for (const key of memory.slots.keys()) turns.set(key, ++this.#turn);
    for (const string of strings) {
      const { stored } = string;
      if (stored.is === "enter") this.#add(listened(string, "enter", plainOrder));
      else if (stored.is === "all-relay") {
        const key = stored.number === undefined ? "" : `${stored.number}`;
        this.#add(listened(string, `all-relay ${key}`, { ...plainOrder, number: stored.number ?? 0 }));
      } else {
        const slot = memory.slots.get(stored.key);
        this.#add(listened(string, stored.key, { fires: slot?.fires ?? "0", number: slot?.number ?? 0, turn: turns.get(stored.key) ?? 0 }));
      }
    }
  }

  #add(string: Listened): void {
    const ends = this.#texts.get(string.text);
    if (ends) ends.push(string);
    else this.#texts.set(string.text, [string]);
    const own = this.#places.get(string.place);
    if (own) own.push(string);
    else this.#places.set(string.place, [string]);
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
    const order = { ...plainOrder, number: stored?.number ?? 0 };
    return this.#replace(place, stored ? this.#strings({ allRelay: new Map([[key, stored]]) }, place, order) : []);
  }

  /** The string that enters programming mode. */
  setInstaller(installer: Digits | undefined): readonly string[] {
    const { codeLength } = this.#force;
    this.#force = { ...(installer === undefined ? {} : { installer }), ...(codeLength === undefined ? {} : { codeLength }) };
    const strings = openStrings(this.#model, { ...noMaps, ...this.#force }).strings.filter(one => one.stored.is === "enter");
    return this.#replace(
      "enter",
      strings.map(one => listened(one, "enter", plainOrder)),
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
    if (!ends || this.beatenBy(symbols) !== undefined) return [];
    const [only] = ends;
    if (only && ends.length === 1 && only.fires !== undefined && !only.fires.includes("+")) return only.fires === "" ? [] : [only.fires];
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
    return this.#model.acts === "at once" ? rivalsOf(this.#model, symbols).find(text => this.#texts.has(text)) : undefined;
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
    const changed: string[] = [];
    for (const one of this.#places.get(place) ?? []) {
      const ends = this.#texts.get(one.text) ?? [];
      if (ends.length > 1) ends.splice(ends.indexOf(one), 1);
      else this.#texts.delete(one.text);
      changed.push(one.text);
    }
    this.#places.delete(place);
    for (const one of after) {
      this.#add(one);
      changed.push(one.text);
    }
    return changed;
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

/** Pairs of what is keyed or presented and a single relay. */
export class Pairs {
  readonly #pairs = new Set<string>();

  add(openings: Openings): this {
    for (const string of openings.all()) for (const relay of openings.fires(string)) this.#pairs.add(`${relay}>${string.text}`);
    return this;
  }

  has(text: string, relay: string): boolean {
    return this.#pairs.has(`${relay}>${text}`);
  }

  /** Some relay that the string would fire is not among them. */
  lacks({ text, fires }: Pick<Listened, "text" | "fires">): boolean {
    if (fires === undefined || fires === "") return false;
    return fires.includes("+") ? relaysOf(fires).some(relay => !this.has(text, relay)) : !this.has(text, fires);
  }
}

function listened(string: OpenString, place: string, order: Order): Listened {
  return { ...string, text: string.symbols.join(" "), place, order };
}

/** Lowest relay, then lowest number; without numbers the one typed first. Of all-relay codes the lowest number. */
export function comesBefore({ order: one, fires }: Listened, { order: other, fires: rival }: Listened): boolean {
  if (one.turn !== other.turn) return one.turn < other.turn;
  const lowest = Number.parseInt(one.fires, 10) - Number.parseInt(other.fires, 10);
  return (lowest || one.number - other.number || compareRelaySets(fires ?? "", rival ?? "")) < 0;
}
