/** Which fields each operation of a model needs and may have, and whether those of a template fit the memory they write. */
import type { Element, OperationName, Span } from "../../grammar/tree.ts";
import { countAlternatives, mostAlternatives } from "./alternatives.ts";
import { bitsOf } from "./bits.ts";
import type { Model } from "./model.ts";
import type { Report } from "./problem.ts";
import { isNumbered, numbersAllRelay } from "./slot-key.ts";

export const fieldNames = ["installer", "code", "tag", "relay", "relay-number", "slot", "seconds", "digits", "value"] as const;
export type FieldName = (typeof fieldNames)[number];

/** `relay` stands for `{relay}` and `{relay-number}` alike, `tag` for `{tag}` and `[present tag]`. */
type Need = "installer" | "code" | "tag" | "relay" | "slot" | "seconds" | "digits" | "value";

interface Rule {
  readonly needs: readonly Need[];
  readonly may: readonly Need[];
}

/** The hand action that shows the keypad a tag; other actions in brackets are told to the person as they are. */
export const presentTag = "present tag";

function isField(name: string): name is FieldName {
  return (fieldNames as readonly string[]).includes(name);
}

/** What an operation needs and may have, by the shape of the memory. */
export function ruleOf(model: Model, operation: OperationName | "setting" | "cancel"): Rule {
  const several = model.relays.size > 1;
  const slot: readonly Need[] = isNumbered(model) ? ["slot"] : [];
  const fires: readonly Need[] = several ? ["relay"] : [];
  const address: readonly Need[] = model.slots.addressing === "shared" ? [] : fires;
  const allRelaySlot: readonly Need[] = numbersAllRelay(model) ? ["slot"] : [];
  const may = (...needs: Need[]): readonly Need[] => [...needs, "installer"];
  switch (operation) {
    case "enter":
      return { needs: ["installer"], may: [] };
    case "leave":
      return { needs: [], may: may() };
    case "cancel":
      return { needs: [], may: [] };
    case "put code":
      return { needs: ["code", ...slot, ...fires], may: may("relay") };
    case "put tag":
      return { needs: ["tag", ...slot, ...fires], may: may("relay") };
    case "clear slot":
      return { needs: [...slot, ...address], may: may("relay") };
    case "clear code":
      return { needs: ["code"], may: may("relay") };
    case "clear tag":
      return { needs: ["tag"], may: may("relay") };
    case "set installer":
      return { needs: ["code"], may: may() };
    case "set all-relay":
      return { needs: ["code", ...allRelaySlot], may: may() };
    case "clear all-relay":
      return { needs: [], may: may("code", ...allRelaySlot) };
    case "set release":
      return { needs: ["seconds", ...fires], may: may("relay") };
    case "set length":
      return { needs: ["digits"], may: may() };
    case "setting":
      return { needs: ["value"], may: may() };
    case "clear all":
      return { needs: [], may: may() };
    case "open code":
      return { needs: ["code"], may: ["relay"] };
    case "open all-relay":
      return { needs: ["code", ...fires], may: ["relay"] };
    case "open tag":
      return { needs: ["tag"], may: ["relay"] };
    case "open both":
      return { needs: ["code", "tag"], may: ["relay"] };
  }
}

/**
 * Reports what is wrong with a template.
 *
 * @param limits what numbers its fields must be able to hold.
 * @returns whether the template can be used.
 */
export function checkTemplate(
  model: Model,
  operation: OperationName | "setting" | "cancel",
  template: readonly Element[],
  name: Span & { readonly text: string },
  limits: { readonly value?: number },
  report: Report,
): boolean {
  const before = { wrong: false };
  const wrong: Report = (...problem) => {
    before.wrong = true;
    report(...problem);
  };
  const { needs, may } = ruleOf(model, operation);
  const seen = new Set<Need>();
  for (const element of template) {
    if (element.kind === "keys") checkKeys(model, element, wrong);
    else if (element.kind === "hand") {
      if (element.text === presentTag) seen.add("tag");
      if (element.text === presentTag && ![...needs, ...may].includes("tag")) {
        wrong("model-incomplete", "field-not-here", element, `"${name.text}" has no tag to present`);
      }
    } else if (!isField(element.name.text)) {
      wrong(
        "model-field",
        "unknown-field",
        element,
        `there is no field {${element.name.text}}; fields are ${fieldNames.map(one => `{${one}}`).join(", ")}`,
      );
    } else {
      const need = element.name.text === "relay-number" ? "relay" : element.name.text;
      if (![...needs, ...may].includes(need)) {
        wrong("model-incomplete", "field-not-here", element, `"${name.text}" cannot have {${element.name.text}}${why(model, need)}`);
      }
      seen.add(need);
      checkWidth(model, element.name.text, element, limits, wrong);
    }
  }
  for (const need of needs) {
    if (seen.has(need)) continue;
    const written = need === "tag" ? "{tag} or [present tag]" : need === "relay" ? "{relay} or {relay-number}" : `{${need}}`;
    wrong("model-incomplete", "field-missing", name, `"${name.text}" needs ${written}`);
  }
  const ways = countAlternatives(model, template, limits.value);
  if (ways > mostAlternatives)
    wrong("model-field", "number-range", name, `"${name.text}" can be typed in more ways than can be told apart (${ways})`);
  if (template.length === 0) wrong("model-incomplete", "field-missing", name, `"${name.text}" has no keys`);
  return !before.wrong;
}

function why(model: Model, need: Need): string {
  if (need !== "slot") return "";
  return isNumbered(model) ? "" : ": its slots have no numbers";
}

function checkKeys(model: Model, element: Extract<Element, { kind: "keys" }>, report: Report): void {
  const missing = keysIn(element.text).filter(key => !model.keys.has(key));
  if (missing.length) report("model-field", "key-missing", element, `the keypad has no key ${[...new Set(missing)].join(", ")}`);
}

/** The presses of an element of keys: a run of digits is that many, anything else is one. */
export function keysIn(text: string): readonly string[] {
  return /^[0-9]+$/.test(text) ? [...text] : [text];
}

type Field = Extract<Element, { kind: "field" }>;

function checkWidth(model: Model, field: FieldName, element: Field, limits: { readonly value?: number }, report: Report): undefined {
  const widths = (element.width ?? []).map(word => Number(word.text));
  const width = widths[0];
  if (width === undefined) return;
  const only = (message: string): undefined => {
    report("model-field", "field-width", element, message);
  };
  if (widths.some(one => one < 1 || one > 20)) return only(`a width is 1 to 20 digits`);
  if (field === "installer" || field === "code" || field === "relay") return only(`{${field}} takes no width`);
  if (field === "tag") return checkTagWidth(model, element, widths, report);
  if (widths.length > 1) return only(`only {tag} has two widths`);
  const most = mostOf(model, field, limits);
  if (most !== undefined && `${most}`.length > width) {
    report(
      "model-field",
      "field-narrow",
      element,
      `${width} ${width === 1 ? "digit is" : "digits are"} too few: {${field}} goes up to ${most}`,
    );
  }
  const toggle = field === "seconds" ? model.release?.toggle : undefined;
  if (toggle !== undefined && toggle.length !== width) {
    report("model-field", "field-width", element, `"until keyed again" is typed with ${toggle.length} digits, {seconds} with ${width}`);
  }
}

function mostOf(model: Model, field: FieldName, limits: { readonly value?: number }): number | undefined {
  switch (field) {
    case "slot":
      return model.slots.bands.reduce((most, band) => Math.max(most, band.to), 0);
    case "seconds":
      return model.release?.max;
    case "digits":
      return model.codeLengths.at(-1);
    case "relay-number":
      return model.relayNumbers.at(-1);
    case "value":
      return limits.value;
    default:
      return undefined;
  }
}

/** `{tag:10}` holds all data bits in decimal; `{tag:3+5}` the bits above the lower 16, and those 16. */
function checkTagWidth(model: Model, element: Field, widths: readonly number[], report: Report): undefined {
  const [first = 0, second] = widths;
  const narrow = second === undefined ? first < bitsOf(model.tagBits).length : first < bitsOf(model.tagBits - 16).length || second < 5;
  if (narrow) report("model-field", "field-narrow", element, `this is too narrow for a tag of ${model.tagBits} bits`);
}
