/** Blank rows for what is asked for at the door: the key pattern of each everyday operation, with gaps to fill by hand. */
import type { Element, OperationName } from "../../grammar/tree.ts";
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { Memory } from "../keypad/memory.ts";
import type { Model, RelaySet } from "../keypad/model.ts";
import type { BlankPattern } from "./shape.ts";
import { visible } from "./visible.ts";

const everyday: readonly (readonly [OperationName, string])[] = [
  ["put code", "A code"],
  ["put tag", "A tag"],
  ["clear slot", "Empty a place"],
  ["clear code", "Take out a code"],
  ["clear tag", "Take out a tag"],
  ["set all-relay", "An all-relay code"],
  ["clear all-relay", "Take out an all-relay code"],
  ["set release", "A release time"],
];

/**
 * The operations that the model has, in one fixed order; what changes the whole keypad is left out, it is not done on request.
 *
 * @param memory what the keypad holds when they are asked for: it says how long a code is.
 */
export function blankPatterns(model: Model, memory: Memory): readonly BlankPattern[] {
  const codeLength = codeLengthsInForce(model, memory).at(-1) ?? 6;
  return everyday.flatMap(([operation, text]) => {
    const found = model.operations.get(operation);
    if (!found) return [];
    const parts = found.template.map(element => partOf(model, element, codeLength));
    return [{ operation, text, parts, ...(found.shows === undefined ? {} : { shows: visible(found.shows) }) }];
  });
}

/** Which keys stand for which door, for a gap named relay: "Foot gate 4". None where no pattern asks for it. */
export function relayKeyWords(model: Model, patterns: readonly BlankPattern[], doors: ReadonlyMap<RelaySet, string>): readonly string[] {
  const asked = patterns.some(({ parts }) => parts.some(part => "gap" in part && part.gap === "relay"));
  if (!asked) return [];
  return [...model.relays].flatMap(([set, keys]) => (doors.has(set) ? [`${doors.get(set)} ${keys.join(" ")}`] : []));
}

function partOf(model: Model, element: Element, codeLength: number): BlankPattern["parts"][number] {
  switch (element.kind) {
    case "keys":
      return { keys: element.text };
    case "hand":
      return { keys: `[${visible(element.text)}]` };
    case "field":
      return { gap: element.name.text, width: widthOf(model, element, codeLength) };
  }
}

/** One gap for each key, since whoever fills them in counts them; as many as the longest takes where the length differs. */
function widthOf(model: Model, element: Element & { readonly kind: "field" }, codeLength: number): number {
  const said = (element.width ?? []).reduce((sum, width) => sum + Number(width.text), 0);
  if (said > 0) return said;
  switch (element.name.text) {
    case "code":
      return codeLength;
    case "installer":
      return model.installerLengths.at(-1) ?? 6;
    case "slot":
      return model.slots.width ?? String(model.slots.capacity).length;
    case "relay":
      return Math.max(1, ...[...model.relays.values()].map(keys => keys.join(" ").length));
    case "relay-number":
      return String(Math.max(1, ...model.relayNumbers)).length;
    case "seconds":
      return Math.max(String(model.release?.max ?? 99).length, model.release?.toggle?.length ?? 0);
    case "tag":
      return 10;
    default:
      return 2;
  }
}
