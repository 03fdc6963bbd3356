/** What can be keyed or presented at the door: one string of symbols for each stored code, tag, all-relay code and relay, and `enter`. */
import type { Element, OperationName } from "../../grammar/tree.ts";
import { codeLengthsInForce } from "./lengths.ts";
import type { AllRelay, Digits, Memory, Slot, SlotKey, TagId } from "./memory.ts";
import type { Model, RelaySet } from "./model.ts";
import { compareRelaySets } from "./relay-set.ts";

/** What is stored and read at the door. */
export type Stored =
  | { readonly is: "slot"; readonly key: SlotKey; readonly half: "code" | "tag" | "both" }
  /** `relay` is the one keyed with it. */
  | { readonly is: "all-relay"; readonly number?: number; readonly relay: RelaySet }
  | { readonly is: "enter" };

/** One string that the keypad listens for. */
export interface OpenString {
  /** Key names, `tag:` and a tag, or a hand action in brackets. */
  readonly symbols: readonly string[];
  readonly how: OperationName;
  /** Undefined for `enter`. */
  readonly fires?: RelaySet;
  readonly stored: Stored;
}

/**
 * Why something stored is not listened for at all. `length`: a code of another length than the one in force. `half`: code or
 * tag of a pair whose other half is missing. `no way`: the model does not say how it is used. `twin`: another place with the
 * same comes first.
 */
export interface Deaf {
  readonly stored: Stored;
  readonly why: "length" | "half" | "no way" | "twin";
  readonly by?: Stored;
}

/** Every string that the memory makes the keypad listen for, and what it never hears. Linear in the places, but for a sort of twins. */
export function openStrings(model: Model, memory: Memory): { readonly strings: readonly OpenString[]; readonly deaf: readonly Deaf[] } {
  const strings: OpenString[] = [];
  const deaf: Deaf[] = [];
  const lengths = codeLengthsInForce(model, memory);
  const twins = model.twins === "first fires" ? new Map<string, OpenString>() : undefined;
  const listen = (stored: Stored, how: OperationName, fires: RelaySet | undefined, values: Values) => {
    const template = model.operations.get(how)?.template;
    if (!template) return void deaf.push({ stored, why: "no way" });
    const string: OpenString = { symbols: symbolsOf(model, template, values), how, stored, ...(fires === undefined ? {} : { fires }) };
    const key = twins && how !== "enter" ? `${how} ${string.symbols.join(" ")}` : undefined;
    const first = key === undefined ? undefined : twins?.get(key);
    if (first) return void deaf.push({ stored, why: "twin", by: first.stored });
    if (key !== undefined) twins?.set(key, string);
    strings.push(string);
  };

  for (const slot of twins ? inOrder(model, memory) : memory.slots.values()) {
    const { code, tag, fires } = slot;
    const asleep = code !== undefined && !lengths.includes(code.length);
    const place = (half: "code" | "tag" | "both"): Stored => ({ is: "slot", key: slot.key, half });
    const relay = fires === undefined ? {} : { relay: fires };
    if (model.slots.holds === "code with tag") {
      if (code === undefined && tag === undefined) continue;
      if (code === undefined || tag === undefined) deaf.push({ stored: place(code === undefined ? "tag" : "code"), why: "half" });
      else if (asleep) deaf.push({ stored: place("both"), why: "length" });
      else listen(place("both"), "open both", fires, { ...relay, code, tag });
      continue;
    }
    if (asleep) deaf.push({ stored: place("code"), why: "length" });
    else if (code !== undefined) listen(place("code"), "open code", fires, { ...relay, code });
    if (tag !== undefined) listen(place("tag"), "open tag", fires, { ...relay, tag });
  }
  for (const { number, code } of numbersAscending(memory)) {
    if (code === undefined) continue;
    for (const relay of allRelayRelays(model)) {
      const stored: Stored = { is: "all-relay", relay, ...(number === undefined ? {} : { number }) };
      if (!lengths.includes(code.length)) deaf.push({ stored, why: "length" });
      else listen(stored, "open all-relay", relay, { relay, code });
    }
  }
  if (memory.installer !== undefined && model.operations.has("enter")) {
    listen({ is: "enter" }, "enter", undefined, { installer: memory.installer });
  }
  return { strings, deaf };
}

/** What is keyed with a code, once for each way: through `open code` or `open both` for the relay, or as an all-relay code for each relay that can be keyed with it. */
export function codeStrings(
  model: Model,
  code: Digits,
  as: { readonly relay: RelaySet } | "all-relay" | "installer",
): readonly (readonly string[])[] {
  const keyed = (how: OperationName, values: Values) => {
    const template = model.operations.get(how)?.template;
    return template ? [symbolsOf(model, template, values)] : [];
  };
  if (as === "installer") return keyed("enter", { installer: code });
  if (as === "all-relay") return allRelayRelays(model).flatMap(relay => keyed("open all-relay", { relay, code }));
  return keyed(model.slots.holds === "code with tag" ? "open both" : "open code", { relay: as.relay, code });
}

/** The relays and sets that can be keyed with an all-relay code; sets only where they have keys of their own (`{relay}`). */
export function allRelayRelays(model: Model): readonly RelaySet[] {
  const fields = model.operations.get("open all-relay")?.template.flatMap(one => (one.kind === "field" ? [one.name.text] : [])) ?? [];
  return [...model.relays.keys()].filter(set => !set.includes("+") || (fields.includes("relay") && !fields.includes("relay-number")));
}

/** How a string is written: keys in a row, tags and hand actions set apart. */
export function textOf(symbols: readonly string[]): string {
  let text = "";
  let apart = true;
  for (const symbol of symbols) {
    const key = symbol.length === 1 || !(symbol.startsWith("tag:") || symbol.startsWith("["));
    text += key && apart ? symbol : ` ${symbol}`;
    apart = key;
  }
  return text.trim();
}

interface Values {
  readonly code?: Digits;
  readonly tag?: TagId;
  readonly relay?: RelaySet;
  readonly installer?: Digits;
}

function symbolsOf(model: Model, template: readonly Element[], values: Values): readonly string[] {
  const symbols: string[] = [];
  for (const element of template) {
    if (element.kind === "keys") pushKeys(symbols, element.text);
    else if (element.kind === "hand")
      symbols.push(element.text === "present tag" && values.tag !== undefined ? `tag:${values.tag}` : `[${element.text}]`);
    else pushField(symbols, model, element, values);
  }
  return symbols;
}

/** A run of digits is that many keys, anything else one. */
function pushKeys(symbols: string[], keys: string): void {
  if (/^[0-9]+$/.test(keys)) pushDigits(symbols, keys);
  else symbols.push(keys);
}

function pushDigits(symbols: string[], digits: string): void {
  for (let i = 0; i < digits.length; i++) symbols.push(digits[i] as string);
}

function pushField(symbols: string[], model: Model, { name, width = [] }: Extract<Element, { kind: "field" }>, values: Values): void {
  switch (name.text) {
    case "code":
      pushDigits(symbols, values.code ?? "");
      break;
    case "installer":
      pushDigits(symbols, values.installer ?? "");
      break;
    case "relay":
      symbols.push(...(model.relays.get(values.relay ?? "") ?? []));
      break;
    case "relay-number":
      symbols.push(...(values.relay ?? "").padStart(Number(width[0]?.text ?? 0), "0"));
      break;
    case "tag":
      symbols.push(
        ...keyedTag(
          values.tag ?? "",
          width.map(word => Number(word.text)),
        ),
      );
      break;
  }
}

/** A tag's number as keyed; one without a number cannot be keyed, and its mark is no key. */
function keyedTag(tag: TagId, [width = 0, second]: readonly number[]): readonly string[] {
  if (!/^[0-9]+$/.test(tag)) return [`tag:${tag}`];
  if (second === undefined) return [...tag.padStart(width, "0")];
  const [facility, number] = [BigInt(tag) >> 16n, BigInt(tag) & 0xffffn];
  return [...facility.toString().padStart(width, "0"), ...number.toString().padStart(second, "0")];
}

/** Where the first of twins fires: lowest relay, then lowest number; without numbers the one typed first. */
function inOrder(model: Model, memory: Memory): readonly Slot[] {
  const slots = [...memory.slots.values()];
  if (model.slots.addressing === "unnumbered") return slots;
  return slots.sort((a, b) => {
    const lowest = Number.parseInt(a.fires ?? "0", 10) - Number.parseInt(b.fires ?? "0", 10);
    return lowest || (a.number ?? 0) - (b.number ?? 0) || compareRelaySets(a.fires ?? "", b.fires ?? "");
  });
}

function numbersAscending(memory: Memory): readonly AllRelay[] {
  return [...memory.allRelay.values()].sort((a, b) => (a.number ?? 0) - (b.number ?? 0));
}
