/**
 * A second simulated keypad, written from the description of how a keypad behaves and sharing nothing with the first but the
 * compiled model: no automaton (it tries every template on what has been keyed so far), no indexes (it looks through all places).
 * Slow and plain on purpose.
 */
import type { Element } from "../../grammar/tree.ts";
import type { Act, Memory } from "../../shared/keypad/memory.ts";
import type { Model } from "../../shared/keypad/model.ts";

/** `put code relay=1 slot=3 code=48291, taken`, and how many acts it was. */
export interface SecondStep {
  readonly what: string;
  readonly outcome: string;
  readonly acts: number;
}

interface Place {
  relay: string;
  number: number | undefined;
  code?: string;
  tag?: string;
}

/** What a keypad holds. Places stand in the order typed. */
export interface Held {
  readonly installer: string | undefined;
  readonly length: number | undefined;
  readonly places: readonly Readonly<Place>[];
  readonly allRelay: readonly { readonly number: number | undefined; readonly code: string }[];
  readonly releases: Readonly<Record<string, string>>;
  readonly settings: Readonly<Record<string, number>>;
}

/** A memory without unknown places. */
export function heldIn(memory: Memory): Held {
  return {
    installer: memory.installer,
    length: memory.codeLength,
    places: [...memory.slots.values()].map(slot => ({
      relay: slot.fires ?? "",
      number: slot.number,
      ...(slot.code === undefined ? {} : { code: slot.code }),
      ...(slot.tag === undefined ? {} : { tag: slot.tag }),
    })),
    allRelay: [...memory.allRelay.values()].map(({ number, code }) => ({ number, code: code ?? "" })),
    releases: Object.fromEntries([...memory.releases].map(([relay, release]) => [relay, `${release}`])),
    settings: Object.fromEntries(memory.settings) as Record<string, number>,
  };
}

/** What is held, one line a fact, sorted. */
export function dumped(model: Model, { installer, length, places, allRelay, releases, settings }: Held): readonly string[] {
  return [
    `installer ${installer}`,
    `length ${length}`,
    ...places.map(
      place =>
        `place ${model.slots.addressing === "shared" ? "" : place.relay}/${place.number ?? ""} fires ${place.relay} code ${place.code} tag ${place.tag}`,
    ),
    ...allRelay.map(({ number, code }) => `all-relay ${number ?? ""} ${code}`),
    ...Object.entries(releases).map(([relay, release]) => `release ${relay} ${release}`),
    ...Object.entries(settings).map(([label, value]) => `setting ${label} ${value}`),
  ].sort();
}

type Values = Record<string, string>;

export class SecondKeypad {
  readonly steps: SecondStep[] = [];
  programming = false;
  readonly #model: Model;
  #installer: string | undefined;
  #length: number | undefined;
  #places: Place[] = [];
  #allRelay: Held["allRelay"][number][] = [];
  #releases: Record<string, string> = {};
  #settings: Record<string, number> = {};
  #buffer: Act[] = [];
  #ignored = 0;

  constructor(model: Model, memory: Memory = model.factory) {
    this.#model = model;
    this.#hold(heldIn(memory));
  }

  #hold({ installer, length, places, allRelay, releases, settings }: Held): void {
    this.#installer = installer;
    this.#length = length;
    this.#places = places.map(place => ({ ...place }));
    this.#allRelay = [...allRelay];
    this.#releases = { ...releases };
    this.#settings = { ...settings };
  }

  held(): Held {
    return {
      installer: this.#installer,
      length: this.#length,
      places: this.#places.map(place => ({ ...place })),
      allRelay: [...this.#allRelay],
      releases: { ...this.#releases },
      settings: { ...this.#settings },
    };
  }

  dump(): readonly string[] {
    return dumped(this.#model, this.held());
  }

  /** Nobody keys anything for a long time: programming mode ends, and what was half typed is forgotten. */
  lapse(): void {
    this.#reportIgnored();
    this.#buffer = [];
    this.programming = false;
  }

  /** Half-typed acts, once the last has been felt. Outside programming mode what did not enter is reported now. */
  end(): number {
    this.#reportIgnored();
    return this.#buffer.length;
  }

  feel(act: Act): void {
    this.#buffer.push(act);
    for (;;) {
      const readings = this.#templates().map(one => ({ ...one, result: this.#match(one.template, one.label) }));
      const complete = readings.find(one => one.result.complete);
      if (complete?.result.complete) {
        this.#entry(complete.name, complete.label, complete.result.complete);
        return;
      }
      if (readings.some(one => one.result.more)) return;
      if (this.programming) break;
      // Outside programming mode the first key cannot begin `enter`: perhaps the next one does.
      this.#ignored += 1;
      this.#buffer.shift();
      if (this.#buffer.length === 0) return;
    }
    const cancel = this.#model.cancel.flatMap(element =>
      element.kind === "keys" ? (/^[0-9]+$/.test(element.text) ? [...element.text] : [element.text]) : [],
    );
    const keyed = this.#buffer.map(one => ("press" in one ? one.press : `[${one.hand}]`));
    const endsIn = (keys: readonly string[]) => keys.length > 0 && keys.every((key, i) => keyed[keyed.length - keys.length + i] === key);
    if (endsIn(cancel)) this.#step("cancel", "taken");
    else if (!cancel.some((_, i) => i > 0 && endsIn(cancel.slice(0, i)))) this.#step("unknown keys", "unknown-keys");
  }

  #reportIgnored(): void {
    if (this.#ignored) this.steps.push({ what: "unknown keys", outcome: "not-in-programming", acts: this.#ignored });
    this.#ignored = 0;
  }

  #step(what: string, outcome: string): void {
    this.steps.push({ what, outcome, acts: this.#buffer.length });
    this.#buffer = [];
  }

  #templates(): readonly { readonly name: string; readonly label?: string; readonly template: readonly Element[] }[] {
    const operations = [...this.#model.operations.values()];
    if (!this.programming)
      return operations.filter(one => one.operation === "enter").map(one => ({ name: "enter", template: one.template }));
    return [
      ...operations
        .filter(one => one.operation !== "enter" && !one.operation.startsWith("open"))
        .map(one => ({ name: one.operation, template: one.template })),
      ...[...this.#model.settings.values()].map(one => ({ name: "set setting", label: one.label, template: one.template })),
    ];
  }

  /** Lengths of codes that are taken just now. */
  #codeLengths(): readonly number[] {
    const { length, codeLengths } = this.#model;
    if (length === "free" || length === "one") return codeLengths;
    const now = length === "set by entry" ? this.#length : this.#installer?.length;
    return now === undefined ? codeLengths : [now];
  }

  #installerLengths(): readonly number[] {
    const lengths = this.#model.installerOwn ? this.#model.installerLengths : this.#codeLengths();
    return this.#installer === undefined ? lengths : [...lengths, this.#installer.length];
  }

  /** Tries a template on the buffer, key by key, with every length that its fields may have. */
  #match(template: readonly Element[], label: string | undefined): { readonly complete?: Values; readonly more: boolean } {
    const isSetInstaller = template === this.#model.operations.get("set installer")?.template;
    const buffer = this.#buffer;
    let more = false;
    const walk = (element: number, at: number, lengths: Readonly<Record<string, number>>, values: Values): Values | undefined => {
      const current = template[element];
      if (!current) return at === buffer.length ? values : undefined;
      const literally = (keys: readonly string[], then: Values): Values | undefined => {
        for (const [i, key] of keys.entries()) {
          const act = buffer[at + i];
          if (!act) {
            more = true;
            return undefined;
          }
          if (!("press" in act) || act.press !== key) return undefined;
        }
        return walk(element + 1, at + keys.length, lengths, then);
      };
      if (current.kind === "keys") return literally(/^[0-9]+$/.test(current.text) ? [...current.text] : [current.text], values);
      if (current.kind === "hand") {
        const act = buffer[at];
        if (!act) more = true;
        if (!act || !("hand" in act) || act.hand !== current.text) return undefined;
        return walk(element + 1, at + 1, lengths, current.text === "present tag" ? same(values, "tag", act.tag ?? "") : values);
      }
      const field = current.name.text;
      if (field === "relay" || field === "relay-number") {
        for (const [relay, keys] of this.#model.relays) {
          if (field === "relay-number" && relay.includes("+")) continue;
          const found = literally(field === "relay" ? keys : [...relay], same(values, "relay", relay));
          if (found) return found;
        }
        return undefined;
      }
      const widths = (current.width ?? []).map(word => Number(word.text));
      const total = widths.reduce((sum, width) => sum + width, 0);
      const choices = total ? [total] : lengths[field] ? [lengths[field]] : this.#fieldLengths(field, label, isSetInstaller);
      for (const length of choices) {
        let typed = "";
        for (let i = 0; i < length; i++) {
          const act = buffer[at + i];
          if (!act) more = true;
          if (!act || !("press" in act) || !/^[0-9]$/.test(act.press)) break;
          typed += act.press;
        }
        if (typed.length < length) continue;
        const value = this.#valueOf(field, typed, widths);
        const found = walk(element + 1, at + length, total ? lengths : { ...lengths, [field]: length }, same(values, field, value));
        if (found) return found;
      }
      return undefined;
    };
    const complete = walk(0, 0, {}, {});
    return complete ? { complete, more } : { more };
  }

  #fieldLengths(field: string, label: string | undefined, isSetInstaller: boolean): readonly number[] {
    const upTo = (most: number | bigint) => [...`${most}`].map((_, i) => i + 1);
    switch (field) {
      case "code":
        return isSetInstaller ? this.#model.installerLengths : this.#codeLengths();
      case "installer":
        return this.#installerLengths();
      case "slot":
        return this.#model.slots.width ? [this.#model.slots.width] : upTo(Math.max(...this.#model.slots.bands.map(band => band.to)));
      case "seconds":
        return [...upTo(this.#model.release?.max ?? 0), this.#model.release?.toggle?.length ?? 1];
      case "digits":
        return upTo(Math.max(...this.#model.codeLengths));
      case "value":
        return upTo(this.#model.settings.get(label ?? "")?.max ?? 0);
      default:
        return upTo(2n ** BigInt(this.#model.tagBits) - 1n);
    }
  }

  #valueOf(field: string, typed: string, widths: readonly number[]): string {
    if (field === "code" || field === "installer") return typed;
    if (field === "seconds" && typed === this.#model.release?.toggle) return "toggle";
    if (field !== "tag" || widths.length < 2) return BigInt(typed).toString();
    const number = Number(typed.slice(widths[0]));
    return number >= 65536 ? "out of range" : (BigInt(typed.slice(0, widths[0])) * 65536n + BigInt(number)).toString();
  }

  #entry(name: string, label: string | undefined, values: Values): void {
    if (name === "enter") {
      this.#reportIgnored();
      const outcome = "differs" in values ? "values-differ" : values.installer === this.#installer ? "taken" : "wrong-installer-code";
      this.#step("enter", outcome);
      this.programming = outcome === "taken";
      return;
    }
    const refusal = this.#refusal(name, label, values);
    const { differs: _, installer: __, ...typed } = values;
    // A release time is always of a relay: of the only one where none is typed.
    const shown = name === "set release" ? { relay: [...this.#model.relays.keys()][0] ?? "", ...typed } : typed;
    const words = Object.entries(shown)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([field, value]) => `${field}=${value}`);
    this.#step([name, ...(label === undefined ? [] : [label]), ...words].join(" "), refusal ?? "taken");
    if (!refusal && (name === "leave" || this.#model.session === "one entry")) this.programming = false;
  }

  #refusal(name: string, label: string | undefined, values: Values): string | undefined {
    if ("differs" in values) return "values-differ";
    if (values.installer !== undefined && values.installer !== this.#installer) return "wrong-installer-code";
    const { tag, code } = values;
    if (tag === "out of range" || (tag !== undefined && /^[0-9]+$/.test(tag) && BigInt(tag) >= 2n ** BigInt(this.#model.tagBits)))
      return "setting-range";
    const only = this.#model.relays.size === 1 ? [...this.#model.relays.keys()][0] : undefined;
    const relay = values.relay ?? only ?? "";
    const number = values.slot === undefined ? undefined : Number(values.slot);
    switch (name) {
      case "put code":
        return this.#put("code", code ?? "", relay, number);
      case "put tag":
        return this.#put("tag", tag ?? "", relay, number);
      case "clear slot": {
        const wrong = this.#band(number, ["codes", "tags", undefined]);
        if (!wrong) this.#places = this.#places.filter(place => !this.#isAt(place, relay, number));
        return wrong;
      }
      case "clear code":
        this.#places = this.#places.filter(place => !(place.code === code && (!values.relay || place.relay === values.relay)));
        if (!values.relay) this.#allRelay = this.#allRelay.filter(one => one.code !== code);
        return undefined;
      case "clear tag":
        this.#places = this.#places.filter(place => !(place.tag === tag && (!values.relay || place.relay === values.relay)));
        return undefined;
      case "set installer": {
        const before = this.#installer?.length;
        this.#installer = code;
        if (this.#model.length === "follows installer code" && before !== code?.length) this.#newLength();
        return undefined;
      }
      case "set all-relay": {
        const wrong = number === undefined ? undefined : this.#band(number, ["all-relay"]);
        if (wrong) return wrong;
        if (number !== undefined && this.#model.rewrite === "refused" && this.#allRelay.some(one => one.number === number))
          return "slot-taken";
        const twin =
          this.#places.some(place => place.code === code) || this.#allRelay.some(one => one.code === code && one.number !== number);
        if (twin && this.#model.twins === "refused") return "twin";
        this.#allRelay = [...this.#allRelay.filter(one => one.number !== number), { number, code: code ?? "" }];
        return undefined;
      }
      case "clear all-relay": {
        const wrong = number === undefined ? undefined : this.#band(number, ["all-relay"]);
        if (!wrong)
          this.#allRelay = this.#allRelay.filter(one =>
            number !== undefined ? one.number !== number : code !== undefined && one.code !== code,
          );
        return wrong;
      }
      case "set release": {
        const seconds = values.seconds ?? "";
        const range = this.#model.release ?? { min: 1, max: 0 };
        if (seconds !== "toggle" && (Number(seconds) < range.min || Number(seconds) > range.max)) return "setting-range";
        this.#releases[relay] = seconds;
        return undefined;
      }
      case "set length": {
        const digits = Number(values.digits);
        if (!this.#model.codeLengths.includes(digits)) return "setting-range";
        const before = this.#length;
        this.#length = digits;
        if (before !== digits) this.#newLength();
        return undefined;
      }
      case "set setting": {
        const setting = this.#model.settings.get(label ?? "");
        const value = Number(values.value);
        if (!setting || value < setting.min || value > setting.max) return "setting-range";
        this.#settings[label ?? ""] = value;
        return undefined;
      }
      case "clear all":
        this.#places = [];
        this.#allRelay = [];
        if (this.#model.operations.get("clear all")?.wipes) this.#hold(heldIn(this.#model.factory));
        return undefined;
      default:
        return undefined;
    }
  }

  #newLength(): void {
    if (this.#model.relength === "keeps") return;
    this.#allRelay = [];
    this.#places = this.#places.filter(place => place.code === undefined || place.tag !== undefined);
    for (const place of this.#places) delete place.code;
  }

  #isAt(place: Place, relay: string, number: number | undefined): boolean {
    switch (this.#model.slots.addressing) {
      case "per relay":
        return place.relay === relay && place.number === number;
      case "shared":
        return place.number === number;
      case "one per relay":
        return place.relay === relay;
      default:
        return false;
    }
  }

  #band(number: number | undefined, kinds: readonly (string | undefined)[]): string | undefined {
    if (number === undefined) return undefined;
    const band = this.#model.slots.bands.find(one => number >= one.from && number <= one.to);
    if (!band) return "slot-range";
    return kinds.includes(band.kept) ? undefined : "slot-kind";
  }

  #put(half: "code" | "tag", content: string, relay: string, number: number | undefined): string | undefined {
    const { slots, rewrite, twins } = this.#model;
    const wrong = this.#band(number, [half === "code" ? "codes" : "tags", undefined]);
    if (wrong) return wrong;
    const there = this.#places.find(place => this.#isAt(place, relay, number));
    if (there && rewrite === "refused") {
      const room = slots.holds !== "one" && there[half] === undefined && there.relay === relay;
      if (!room) return "slot-taken";
    }
    if (twins === "refused") {
      if (this.#places.some(place => place !== there && place[half] === content)) return "twin";
      if (half === "code" && this.#allRelay.some(one => one.code === content)) return "twin";
    }
    if (slots.addressing === "unnumbered") {
      if (this.#places.some(place => place.relay === relay && place[half] === content)) return undefined;
      if (this.#places.length >= slots.capacity) return "memory-full";
    }
    if (there) {
      if (slots.holds === "one") {
        delete there.code;
        delete there.tag;
      }
      there[half] = content;
      there.relay = relay;
    } else this.#places.push({ relay, number, [half]: content });
    return undefined;
  }
}

/** A value that stands twice must be the same twice. */
function same(values: Values, field: string, value: string): Values {
  const before = values[field];
  if (before === undefined) return { ...values, [field]: value };
  return before === value ? values : { ...values, differs: "" };
}
