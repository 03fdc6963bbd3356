/**
 * A second door, written from the description of how a keypad behaves in everyday use: it looks through all stored strings at every
 * key. No automaton and no index; it shares nothing with the door recogniser but the compiled model.
 */
import type { Model } from "../../shared/keypad/model.ts";
import type { Held } from "./second-keypad.ts";

/** `relays` is empty for the `enter` string. */
export interface DoorString {
  readonly symbols: readonly string[];
  readonly relays: readonly string[];
}

export class SecondDoor {
  readonly strings: DoorString[] = [];
  readonly #model: Model;

  constructor(model: Model, held: Held) {
    this.#model = model;
    const places = [...held.places];
    const order = (fires: string) => Number(fires.split("+")[0]);
    if (model.slots.addressing !== "unnumbered" && model.twins === "first fires") {
      places.sort((a, b) => order(a.relay) - order(b.relay) || (a.number ?? 0) - (b.number ?? 0) || a.relay.length - b.relay.length);
    }
    const lengths = lengthsIn(model, held);
    for (const { relay: fires, code, tag } of places) {
      const good = code !== undefined && lengths.includes(code.length);
      if (model.slots.holds === "code with tag") {
        if (good && tag !== undefined) this.#add("open both", fires, { code, tag });
        continue;
      }
      if (good) this.#add("open code", fires, { code });
      if (tag !== undefined) this.#add("open tag", fires, { tag });
    }
    const asks = model.operations.get("open all-relay")?.template.flatMap(one => (one.kind === "field" ? [one.name.text] : [])) ?? [];
    const keyedRelays = [...model.relays.keys()].filter(relay => asks.includes("relay") || !relay.includes("+"));
    for (const { code } of [...held.allRelay].sort((a, b) => (a.number ?? 0) - (b.number ?? 0))) {
      if (!lengths.includes(code.length)) continue;
      for (const relay of keyedRelays) this.#add("open all-relay", relay, { code });
    }
    this.#add("enter", "", { code: held.installer ?? "" });
  }

  readonly #seen = new Set<string>();

  #add(
    how: "open code" | "open tag" | "open both" | "open all-relay" | "enter",
    fires: string,
    values: { code?: string; tag?: string },
  ): void {
    const symbols = (this.#model.operations.get(how)?.template ?? []).flatMap(element => {
      if (element.kind === "keys") return /^\d+$/.test(element.text) ? [...element.text] : [element.text];
      if (element.kind === "hand") return [element.text === "present tag" ? `tag:${values.tag}` : `[${element.text}]`];
      const widths = (element.width ?? []).map(word => Number(word.text));
      if (element.name.text === "relay") return this.#model.relays.get(fires) ?? [];
      if (element.name.text === "relay-number") return [...fires.padStart(widths[0] ?? 0, "0")];
      return element.name.text === "tag" ? [...printed(values.tag ?? "", widths)] : [...(values.code ?? "")];
    });
    if (symbols.length === 0) return;
    const key = `${how} ${symbols.join(" ")}`;
    if (this.#model.twins === "first fires" && this.#seen.has(key)) return;
    this.#seen.add(key);
    this.strings.push({ symbols, relays: fires === "" ? [] : fires.split("+") });
  }

  /** The string that the keypad acts on after hearing `heard`, if any. */
  #hit(heard: readonly string[], shortest: boolean, last: boolean): string | undefined {
    const found = this.strings
      .map(({ symbols }) => symbols)
      .filter(
        symbols =>
          symbols.length <= heard.length &&
          symbols.join(" ") === (last ? heard.slice(-symbols.length) : heard.slice(0, symbols.length)).join(" "),
      )
      .sort((a, b) => (shortest ? a.length - b.length : b.length - a.length));
    return found[0]?.join(" ");
  }

  /** Each string that is acted on, in turn. */
  #heard(symbols: readonly string[]): readonly string[] {
    const last = this.#model.listens === "to the last keys";
    const hits: string[] = [];
    let heard: string[] = [];
    for (const symbol of symbols) {
      heard.push(symbol);
      const goesOn = this.strings.some(one => one.symbols.slice(0, heard.length).join(" ") === heard.join(" "));
      if (!last && !goesOn && symbol.startsWith("tag:")) heard = [symbol];
      if (this.#model.acts === "after a pause") continue;
      const hit = this.#hit(heard, true, last);
      if (hit === undefined) continue;
      hits.push(hit);
      heard = [];
      if (this.#isEnter(hit)) return hits;
    }
    if (this.#model.acts === "after a pause") {
      const hit = this.#hit(heard, false, last);
      if (hit !== undefined) hits.push(hit);
    }
    return hits;
  }

  #isEnter(hit: string): boolean {
    return this.strings.filter(({ symbols }) => symbols.join(" ") === hit).every(({ relays }) => relays.length === 0);
  }

  fires(symbols: readonly string[]): readonly string[] {
    const hits = this.#heard(symbols);
    return [...new Set(hits.flatMap(hit => this.strings.filter(one => one.symbols.join(" ") === hit).flatMap(({ relays }) => relays)))];
  }

  /** Whether keying just this is acted on as this. */
  actsOn(symbols: readonly string[]): boolean {
    return this.#heard(symbols).join("|") === symbols.join(" ");
  }

  /** What opens: each string that is acted on when just it is keyed or presented, with each relay that it fires. */
  opens(): ReadonlySet<string> {
    const found = new Set<string>();
    for (const { symbols, relays } of this.strings) {
      if (relays.length === 0 || !this.actsOn(symbols)) continue;
      for (const relay of this.fires(symbols)) found.add(`${symbols.join(" ")} > ${relay}`);
    }
    return found;
  }

  /** The installer code in force still enters programming mode. */
  enters(): boolean {
    const enter = this.strings.find(({ relays }) => relays.length === 0);
    return enter !== undefined && this.#isEnter(enter.symbols.join(" ")) && this.actsOn(enter.symbols);
  }
}

/** Lengths of codes that are heard. */
function lengthsIn({ length, codeLengths }: Model, held: Held): readonly number[] {
  const now = length === "set by entry" ? held.length : length === "follows installer code" ? held.installer?.length : undefined;
  return now === undefined ? codeLengths : [now];
}

/** A tag's number as it is keyed; a tag without a number is only presented. */
function printed(tag: string, [width = 0, second]: readonly number[]): readonly string[] {
  if (!/^[0-9]+$/.test(tag)) return [`tag:${tag}`];
  if (second === undefined) return [...tag.padStart(width, "0")];
  const [facility, number] = [Math.floor(Number(tag) / 65_536), Number(tag) % 65_536];
  return [...`${facility}`.padStart(width, "0"), ...`${number}`.padStart(second, "0")];
}
