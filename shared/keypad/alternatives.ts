/**
 * A template as the recogniser reads it: one plain row of symbols for each length that its fields may have and for each relay.
 *
 * "A field that stands twice is one value, typed twice, of one length: the template is one alternative for each length."
 */
import type { Element, OperationName } from "../../grammar/tree.ts";
import { bitsOf } from "./bits.ts";
import type { Model, RelaySet } from "./model.ts";

/** Any digit key. Other symbols are a key's name, or a hand action in brackets. */
export const anyDigit = "(digit)";

/** A key's name, `[present tag]` and the like, or `anyDigit`. */
export type KeySymbol = string;

/** What a row of keys does when it has been read to its end. */
export interface Reading {
  readonly operation: OperationName | "set setting" | "cancel";
  /** The setting's label. */
  readonly label?: string;
}

export interface FieldAt {
  readonly field: "installer" | "code" | "tag" | "facility" | "presented" | "slot" | "seconds" | "digits" | "value";
  /** First symbol and one past the last. */
  readonly from: number;
  readonly to: number;
}

export interface Alternative {
  readonly reading: Reading;
  /** Its turn among all alternatives that are read together, from 0. */
  readonly order: number;
  readonly symbols: readonly KeySymbol[];
  readonly fields: readonly FieldAt[];
  /** The relay that its keys name, where the template has the field. */
  readonly relay?: RelaySet;
}

/** Lengths that the fields without a fixed width may have now. */
export interface FieldLengths {
  readonly code: readonly number[];
  readonly installer: readonly number[];
}

/** More rows than this no template of a real keypad has; a template with more is refused when the model is compiled. Our own choice. */
export const mostAlternatives = 4_000;

/** All alternatives of one template. */
export function alternativesOf(
  model: Model,
  reading: Reading,
  template: readonly Element[],
  lengths: FieldLengths,
  settingMax?: number,
): readonly Alternative[] {
  const names = new Set(template.flatMap(element => (element.kind === "field" ? [element.name.text] : [])));
  const unsized = new Set(template.flatMap(element => (element.kind === "field" && !element.width?.length ? [element.name.text] : [])));
  const asks = names.has("relay") || names.has("relay-number");
  const relays: readonly (RelaySet | undefined)[] = asks
    ? [...model.relays.keys()].filter(set => !names.has("relay-number") || !set.includes("+"))
    : [undefined];
  let choices: ReadonlyMap<string, number>[] = [new Map()];
  for (const name of unsized) {
    if (name === "relay" || name === "relay-number") continue;
    const free = freeLengths(model, name, lengths, settingMax);
    choices = choices.flatMap(choice => free.map(length => new Map([...choice, [name, length]])));
  }
  return relays.flatMap(relay => choices.map(choice => rowOf(model, reading, template, choice, relay)));
}

/** How many alternatives a template has at most, whatever the lengths in force. */
export function countAlternatives(model: Model, template: readonly Element[], settingMax?: number): number {
  const unsized = new Set(template.flatMap(element => (element.kind === "field" && !element.width?.length ? [element.name.text] : [])));
  const lengths: FieldLengths = { code: union(model), installer: union(model) };
  let count = 1;
  for (const name of unsized) {
    if (name === "relay" || name === "relay-number") count *= model.relays.size;
    else count *= freeLengths(model, name, lengths, settingMax).length;
  }
  return count;
}

function union(model: Model): readonly number[] {
  return [...new Set([...model.codeLengths, ...model.installerLengths])];
}

/** Lengths that a field has where its template gives no width. */
function freeLengths(model: Model, field: string, lengths: FieldLengths, settingMax: number | undefined): readonly number[] {
  switch (field) {
    case "code":
      return lengths.code;
    case "installer":
      return lengths.installer;
    case "slot":
      return model.slots.width === undefined ? upTo(Math.max(0, ...model.slots.bands.map(band => band.to))) : [model.slots.width];
    case "seconds":
      return [
        ...new Set([...upTo(model.release?.max ?? 0), ...(model.release?.toggle === undefined ? [] : [model.release.toggle.length])]),
      ];
    case "digits":
      return upTo(model.codeLengths.at(-1) ?? 0);
    case "value":
      return upTo(settingMax ?? 0);
    case "tag":
      return upTo(bitsOf(model.tagBits));
    default:
      return [];
  }
}

/** 1 to as many digits as the largest number has. */
function upTo(most: number | string): readonly number[] {
  return Array.from({ length: `${most}`.length }, (_, index) => index + 1);
}

function rowOf(
  model: Model,
  reading: Reading,
  template: readonly Element[],
  lengths: ReadonlyMap<string, number>,
  relay: RelaySet | undefined,
): Alternative {
  const symbols: KeySymbol[] = [];
  const fields: FieldAt[] = [];
  const digits = (field: FieldAt["field"], length: number) => {
    fields.push({ field, from: symbols.length, to: symbols.length + length });
    for (let i = 0; i < length; i++) symbols.push(anyDigit);
  };
  for (const element of template) {
    if (element.kind === "keys") {
      if (/^\d+$/.test(element.text)) for (const digit of element.text) symbols.push(digit);
      else symbols.push(element.text);
    } else if (element.kind === "hand") {
      if (element.text === "present tag") fields.push({ field: "presented", from: symbols.length, to: symbols.length + 1 });
      symbols.push(`[${element.text}]`);
    } else if (element.name.text === "relay") symbols.push(...(model.relays.get(relay ?? "") ?? []));
    else if (element.name.text === "relay-number") symbols.push(...(relay ?? "").padStart(Number(element.width?.[0]?.text ?? 0), "0"));
    else {
      const field = element.name.text as Exclude<FieldAt["field"], "facility" | "presented">;
      const [width, second] = (element.width ?? []).map(word => Number(word.text));
      if (field === "tag" && width !== undefined && second !== undefined) {
        digits("facility", width);
        digits("tag", second);
      } else digits(field, width ?? lengths.get(field) ?? 0);
    }
  }
  return { reading, order: 0, symbols, fields, ...(relay === undefined ? {} : { relay }) };
}
