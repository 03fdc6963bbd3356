/**
 * Operation → keys: what is typed, group for group, as the model's template says.
 *
 * Written apart from the recogniser and sharing nothing with it but the types, so that each checks the other.
 */
import type { Element } from "../../grammar/tree.ts";
import { must } from "../must.ts";
import type { Force } from "./lengths.ts";
import type { Act, Digits, KeyGroup, Operation, TagId } from "./memory.ts";
import type { Model, RelaySet } from "./model.ts";

/** The values that a template's fields take; what the operation does not have is absent. */
interface Values {
  readonly installer?: Digits;
  readonly code?: Digits;
  readonly tag?: TagId;
  readonly relay?: RelaySet;
  readonly slot?: number;
  readonly seconds?: string;
  readonly digits?: number;
  readonly value?: number;
}

/**
 * The keys of one operation, one group for each element of its template.
 *
 * @param force the installer code that is in force when it is typed.
 * @throws BrokenInvariant where `cannotEncode` gives a reason.
 */
export function encode(model: Model, operation: Operation, force: Force): readonly KeyGroup[] {
  const reason = cannotEncode(model, operation, force);
  must(reason === undefined, `an operation that is typed can be typed: ${reason}`);
  return groups(model, templateOf(model, operation) ?? [], valuesOf(model, operation, force), operation.operation === "set installer");
}

/** Why an operation cannot be typed on this keypad, in words without a code; undefined where it can. */
export function cannotEncode(model: Model, operation: Operation, force: Force): string | undefined {
  const template = templateOf(model, operation);
  if (!template) return `the keypad has no operation "${operation.operation}"`;
  const values = valuesOf(model, operation, force);
  for (const element of template) {
    const reason = cannotType(model, element, values);
    if (reason) return reason;
  }
  return undefined;
}

/** The keys that enter programming mode with an installer code; none where the model does not say how. */
export function encodeEnter(model: Model, installer: Digits): readonly KeyGroup[] {
  return groups(model, model.operations.get("enter")?.template ?? [], { installer }, false);
}

/** The keys that leave programming mode; none where the model leaves it by waiting. */
export function encodeLeave(model: Model, force: Force = {}): readonly KeyGroup[] {
  return groups(model, model.operations.get("leave")?.template ?? [], force, false);
}

/** The keys that get out of a half-typed entry. */
export function encodeCancel(model: Model): readonly KeyGroup[] {
  return groups(model, model.cancel, {}, false);
}

/** What a person keys or presents at the door. `relay` where the template asks for one. */
export function encodeOpen(
  model: Model,
  how: "open code" | "open all-relay" | "open tag" | "open both",
  what: { readonly code?: Digits; readonly tag?: TagId; readonly relay?: RelaySet },
): readonly KeyGroup[] {
  return groups(model, model.operations.get(how)?.template ?? [], what, false);
}

function templateOf(model: Model, operation: Operation): readonly Element[] | undefined {
  if (operation.operation === "set setting") return model.settings.get(operation.label)?.template;
  return model.operations.get(operation.operation)?.template;
}

function valuesOf(model: Model, operation: Operation, force: Force): Values {
  const installer = force.installer === undefined ? {} : { installer: force.installer };
  const relay = "relay" in operation ? operation.relay : undefined;
  // A relay that the keys do not ask for may still be named by a template that has the field: then it is the only one.
  const only = model.relays.size === 1 ? [...model.relays.keys()][0] : undefined;
  const fires = relay ?? only;
  return {
    ...installer,
    ...(fires === undefined ? {} : { relay: fires }),
    ...("code" in operation && operation.code !== undefined ? { code: operation.code } : {}),
    ...("tag" in operation ? { tag: operation.tag } : {}),
    ...("slot" in operation && operation.slot !== undefined ? { slot: operation.slot } : {}),
    ...("digits" in operation ? { digits: operation.digits } : {}),
    ...("value" in operation ? { value: operation.value } : {}),
    ...("release" in operation ? secondsOf(model, operation.release) : {}),
  };
}

function secondsOf(model: Model, release: number | "toggle"): { readonly seconds?: string } {
  const seconds = release === "toggle" ? model.release?.toggle : `${release}`;
  return seconds === undefined ? {} : { seconds };
}

function groups(model: Model, template: readonly Element[], values: Values, newInstaller: boolean): readonly KeyGroup[] {
  return template.map(element => {
    if (element.kind === "keys") return typed(/^[0-9]+$/.test(element.text) ? [...element.text] : [element.text], "keys");
    if (element.kind === "hand") return handled(element.text, values.tag);
    const reason = cannotType(model, element, values);
    must(reason === undefined, `a field that is typed can be typed: ${reason}`);
    return typed(pressesOf(model, element, values), groupKind(element.name.text, newInstaller));
  });
}

function typed(presses: readonly string[], is: KeyGroup["is"]): KeyGroup {
  return { text: presses.join(""), acts: presses.map(press => ({ press })), is };
}

function handled(text: string, tag: TagId | undefined): KeyGroup {
  const act: Act = text === "present tag" && tag !== undefined ? { hand: text, tag } : { hand: text };
  return { text: act.tag === undefined ? `[${text}]` : `[${text} ${act.tag}]`, acts: [act], is: "hand" };
}

function groupKind(field: string, newInstaller: boolean): KeyGroup["is"] {
  switch (field) {
    case "installer":
    case "tag":
    case "slot":
    case "seconds":
    case "digits":
    case "value":
      return field;
    case "code":
      return newInstaller ? "new installer" : "code";
    default:
      return "relay";
  }
}

type Field = Extract<Element, { readonly kind: "field" }>;

function cannotType(model: Model, element: Element, values: Values): string | undefined {
  if (element.kind === "hand") return element.text === "present tag" && values.tag === undefined ? "no tag is named" : undefined;
  if (element.kind === "keys") return undefined;
  const presses = pressesOf(model, element, values);
  const field = element.name.text;
  if (presses.length === 0)
    return field === "tag" && values.tag !== undefined ? "the tag's number is not known" : `{${field}} is not known`;
  if (presses.some(press => !model.keys.has(press))) return `{${field}} needs a key that the keypad does not have`;
  const [width] = widthsOf(model, element);
  const free = field === "code" || field === "installer" || field === "relay" || field === "tag" || width === undefined;
  return free || presses.length === width ? undefined : `{${field}} does not fit into ${width} digits`;
}

/** Empty where the value is not known. */
function pressesOf(model: Model, element: Field, values: Values): readonly string[] {
  switch (element.name.text) {
    case "installer":
      return [...(values.installer ?? "")];
    case "code":
      return [...(values.code ?? "")];
    case "tag":
      return [...tagDigits(element, values.tag)];
    case "relay":
      return values.relay === undefined ? [] : (model.relays.get(values.relay) ?? []);
    case "relay-number":
      return /^[0-9]+$/.test(values.relay ?? "") ? [...padded(model, element, values.relay ?? "")] : [];
    case "slot":
      return [...padded(model, element, values.slot)];
    case "seconds":
      return [...padded(model, element, values.seconds)];
    case "digits":
      return [...padded(model, element, values.digits)];
    case "value":
      return [...padded(model, element, values.value)];
    default:
      return [];
  }
}

function widthsOf(model: Model, element: Field): readonly number[] {
  if (element.width?.length) return element.width.map(word => Number(word.text));
  return element.name.text === "slot" && model.slots.width !== undefined ? [model.slots.width] : [];
}

function padded(model: Model, element: Field, value: number | string | undefined): string {
  if (value === undefined) return "";
  return `${value}`.padStart(widthsOf(model, element)[0] ?? 0, "0");
}

/** Decimal data bits, or facility and number: the bits above the lower 16, and those 16. Empty for a tag without a number. */
function tagDigits(element: Field, tag: TagId | undefined): string {
  if (tag === undefined || !/^[0-9]+$/.test(tag)) return "";
  const [first = 0, second] = (element.width ?? []).map(word => Number(word.text));
  if (second === undefined) return tag.length > first && first > 0 ? "" : tag.padStart(first, "0");
  const bits = BigInt(tag);
  const facility = (bits >> 16n).toString().padStart(first, "0");
  const number = (bits & 0xffffn).toString().padStart(second, "0");
  return facility.length > first || number.length > second ? "" : facility + number;
}
