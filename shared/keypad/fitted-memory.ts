/** What a fitted record or a model's `factory` block says that a keypad holds, as a memory. */
import type { AllRelayFact, FittedEntry, FittedFact, FittedRelay, SettingFact, Span, Word } from "../../grammar/tree.ts";
import { markedTag, readTag } from "../tags/spelling.ts";
import type { AllRelay, Digits, Memory, ReleaseTime, Slot, SlotKey, TagId } from "./memory.ts";
import type { Model, RelaySet } from "./model.ts";
import { relaySet } from "./relay-set.ts";
import { bandOf, isNumbered, numbersAllRelay, slotKey } from "./slot-key.ts";

export interface FittedProblem {
  readonly kind:
    | "relay-range"
    | "slot-range"
    | "slot-kind"
    | "slot-number"
    | "slot-clash"
    | "pair-mode"
    | "code-length"
    | "installer-length"
    | "tag-range"
    | "setting-unknown"
    | "setting-range"
    | "release-range";
  readonly span: Span;
  /** In words, without a code. */
  readonly message: string;
  readonly related?: Span;
}

/**
 * Reads the facts. What does not fit the model is a problem and is left out, save a code of a wrong length, which is kept
 * (it may be there, asleep). What is half typed is passed over. Two facts about one place: the first stands.
 */
export function memoryOf(
  model: Model,
  facts: readonly FittedFact[],
): { readonly memory: Memory; readonly problems: readonly FittedProblem[] } {
  const reading = new Reading(model);
  for (const fact of facts) reading.fact(fact);
  return { memory: reading.memory(), problems: reading.problems };
}

/** An empty memory: nothing said about anything. */
export function emptyMemory(): Memory {
  return { allRelay: new Map(), releases: new Map(), settings: new Map(), slots: new Map() };
}

class Reading {
  readonly problems: FittedProblem[] = [];
  readonly #model: Model;
  #installer: Digits | undefined;
  #codeLength: number | undefined;
  readonly #allRelay = new Map<string, AllRelay>();
  readonly #releases = new Map<RelaySet, ReleaseTime>();
  readonly #settings = new Map<string, number>();
  readonly #slots = new Map<SlotKey, Slot>();
  readonly #said = new Map<string, Span>();
  #unplaced = 0;

  constructor(model: Model) {
    this.#model = model;
  }

  memory(): Memory {
    return {
      ...(this.#installer === undefined ? {} : { installer: this.#installer }),
      ...(this.#codeLength === undefined ? {} : { codeLength: this.#codeLength }),
      allRelay: this.#allRelay,
      releases: this.#releases,
      settings: this.#settings,
      slots: this.#slots,
    };
  }

  fact(fact: FittedFact): void {
    switch (fact.kind) {
      case "installer":
        if (fact.digits) this.#readInstaller(fact.digits);
        return;
      case "code-length":
        if (fact.digits) this.#readCodeLength(fact.digits);
        return;
      case "all-relay":
        this.#readAllRelay(fact);
        return;
      case "setting":
        this.#readSetting(fact);
        return;
      case "fitted-relay":
        this.#readRelay(fact);
        return;
      default:
        return;
    }
  }

  #readInstaller(digits: Word): void {
    if (!this.#model.installerLengths.includes(digits.text.length)) {
      this.#problem(
        "installer-length",
        digits,
        `the installer code of ${this.#model.id} has ${listed(this.#model.installerLengths)} digits`,
      );
    }
    this.#installer ??= digits.text;
  }

  #readCodeLength(digits: Word): void {
    const length = Number(digits.text);
    if (!this.#model.codeLengths.includes(length)) {
      this.#problem("code-length", digits, `codes of ${this.#model.id} have ${listed(this.#model.codeLengths)} digits`);
    } else if (this.#model.length === "set by entry") this.#codeLength ??= length;
  }

  #readAllRelay(fact: AllRelayFact): undefined {
    if (!fact.digits && !fact.unknown) return;
    const numbered = numbersAllRelay(this.#model);
    if (numbered !== (fact.number !== undefined)) {
      this.#problem(
        "slot-number",
        fact.number ?? fact.keyword,
        numbered
          ? `${this.#model.id} keeps all-relay codes by number: the number is missing`
          : `${this.#model.id} has one all-relay code, without a number`,
      );
      if (numbered) return;
    }
    const number = numbered && fact.number ? Number(fact.number.text) : undefined;
    if (number !== undefined && fact.number) {
      const band = bandOf(this.#model, number);
      if (!band) return this.#problem("slot-range", fact.number, `slot ${fact.number.text} is outside the slots of ${this.#model.id}`);
      if (band.kept !== "all-relay") {
        return this.#problem("slot-kind", fact.number, `slot ${fact.number.text} of ${this.#model.id} is not kept for all-relay codes`);
      }
    }
    if (fact.digits) this.#checkLength(fact.digits);
    const key = number === undefined ? "" : `${number}`;
    if (this.#allRelay.has(key)) return this.#clash(`all-relay ${key}`, fact, "this all-relay code is said twice");
    this.#said.set(`all-relay ${key}`, fact);
    this.#allRelay.set(key, {
      ...(number === undefined ? {} : { number }),
      ...(fact.digits ? { code: fact.digits.text } : {}),
      ...(fact.unknown ? { unknown: true } : {}),
    });
  }

  #readSetting(fact: SettingFact): void {
    if (!fact.label || !fact.value) return;
    const setting = this.#model.settings.get(fact.label.text);
    const value = Number(fact.value.text);
    if (!setting) this.#problem("setting-unknown", fact.label, `${this.#model.id} has no setting "${fact.label.text}"`);
    else if (value < setting.min || value > setting.max) {
      this.#problem("setting-range", fact.value, `"${setting.label}" goes from ${setting.min} to ${setting.max}`);
    } else if (!this.#settings.has(setting.label)) this.#settings.set(setting.label, value);
  }

  #readRelay(fact: FittedRelay): undefined {
    if (fact.numbers.length === 0) return;
    const set = relaySet(fact.numbers.map(number => number.text));
    if (!this.#model.relays.has(set)) {
      const first = fact.numbers[0] ?? fact.keyword;
      return this.#problem(
        "relay-range",
        { start: first.start, end: fact.numbers.at(-1)?.end ?? first.end },
        `${this.#model.id} has no relay ${set}`,
      );
    }
    const release = fact.release?.toggle ? "toggle" : fact.release?.seconds ? Number(fact.release.seconds.text) : undefined;
    if (release !== undefined && fact.release) {
      // A keypad may come with a release that it has no entry for, so that only a stated range is held against it.
      const range = this.#model.release;
      const outside = range && (release === "toggle" ? range.toggle === undefined : release < range.min || range.max < release);
      if (outside) {
        this.#problem("release-range", fact.release, `a release of ${this.#model.id} is ${range.min} to ${range.max} seconds`);
      } else if (!this.#releases.has(set)) this.#releases.set(set, release);
    }
    for (const entry of fact.entries) this.#readEntry(set, entry);
  }

  #readEntry(fires: RelaySet, entry: FittedEntry): undefined {
    const code = entry.code?.text;
    const tag = this.#readTag(entry);
    if (tag === false || (code === undefined && tag === undefined && !entry.unknown)) return;
    const number = this.#readNumber(entry);
    if (number === false) return;
    if (entry.code) this.#checkLength(entry.code);
    const { holds } = this.#model.slots;
    const mode = holds === "code or tag" ? "or" : holds === "code with tag" ? "with" : undefined;
    if (entry.pair && entry.pair !== mode) {
      this.#problem(
        "pair-mode",
        entry,
        mode ? `a slot of ${this.#model.id} holds a code "${mode}" a tag` : `a slot of ${this.#model.id} holds a code or a tag, not both`,
      );
      if (!mode) return;
    }
    const unplaced = this.#model.slots.addressing === "unnumbered" && code === undefined && tag === undefined;
    const key = unplaced
      ? `${fires}:unknown ${++this.#unplaced}`
      : slotKey(this.#model, fires, number, { ...(code === undefined ? {} : { code }), ...(tag === undefined ? {} : { tag }) });
    if (this.#slots.has(key)) return this.#clash(key, entry, "this place is said twice");
    this.#said.set(key, entry);
    this.#slots.set(key, {
      key,
      fires,
      ...(number === undefined ? {} : { number }),
      ...(code === undefined ? {} : { code }),
      ...(tag === undefined ? {} : { tag }),
      ...(holds === "code with tag" && !entry.unknown ? { needsBoth: true } : {}),
      ...(entry.unknown ? { unknown: true } : {}),
    });
  }

  /** False where the entry cannot be placed. */
  #readNumber(entry: FittedEntry): number | undefined | false {
    const { slot } = entry;
    if (!isNumbered(this.#model)) {
      if (slot) this.#problem("slot-number", slot, `slots of ${this.#model.id} have no numbers`);
      return undefined;
    }
    if (!slot) {
      this.#problem("slot-number", entry, `slots of ${this.#model.id} have numbers: this one's is missing`);
      return false;
    }
    const number = Number(slot.text);
    const band = bandOf(this.#model, number);
    const wrong = band?.kept === "all-relay" || (band?.kept === "codes" && entry.tag) || (band?.kept === "tags" && entry.code);
    if (band && !wrong) return number;
    if (band) this.#problem("slot-kind", slot, `slot ${slot.text} of ${this.#model.id} is kept for ${keptFor(band.kept)}`);
    else this.#problem("slot-range", slot, `slot ${slot.text} is outside the slots of ${this.#model.id}`);
    return false;
  }

  /** False where its number cannot be read. */
  #readTag(entry: FittedEntry): TagId | undefined | false {
    if (entry.tag?.number) {
      const read = readTag(entry.tag.number.text, this.#model.tagBits);
      if ("tag" in read) return read.tag;
      this.#problem("tag-range", entry.tag.number, `this is not the number of a tag of ${this.#model.tagBits} bits`);
      return false;
    }
    return entry.tag?.mark ? markedTag(entry.tag.mark.text) : undefined;
  }

  #checkLength(code: Word): void {
    if (this.#model.codeLengths.includes(code.text.length)) return;
    this.#problem("code-length", code, `codes of ${this.#model.id} have ${listed(this.#model.codeLengths)} digits`);
  }

  #clash(said: string, span: Span, message: string): undefined {
    const first = this.#said.get(said);
    this.problems.push({ kind: "slot-clash", span: plain(span), message, ...(first ? { related: plain(first) } : {}) });
  }

  #problem(kind: FittedProblem["kind"], span: Span, message: string): undefined {
    this.problems.push({ kind, span: plain(span), message });
  }
}

function plain({ start, end }: Span): Span {
  return { start, end };
}

function keptFor(kept: "codes" | "tags" | "all-relay" | undefined): string {
  return kept === "all-relay" ? "all-relay codes" : (kept ?? "anything");
}

function listed(lengths: readonly number[]): string {
  return lengths.length > 1 ? `${lengths.slice(0, -1).join(", ")} or ${lengths.at(-1)}` : lengths.join();
}
