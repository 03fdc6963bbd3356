/** An operation in words, with its holder, door and slot: "Unit 2's code into slot 02 of Foot gate". */
import type { Operation } from "../keypad/memory.ts";
import type { Model, RelaySet } from "../keypad/model.ts";
import type { PlanEntry } from "../plan/plan.ts";
import type { Credential } from "../site/site.ts";
import type { Names } from "./names.ts";
import { credentialWords, listed, relayOf, slotOf, tagWords } from "./names.ts";
import { labelled } from "./visible.ts";

/** The words never hold a code; a tag that nobody is known to have is named by its number. */
export function sentence(operation: Operation, names: Names, model: Model): string {
  switch (operation.operation) {
    case "put code":
    case "put tag":
      return `${whose(operation, names)} ${into(operation, names, model)}`;
    case "clear slot":
      return `Empty ${placeWords(operation, names, model)}${heldBefore(operation, names)}`;
    case "clear code":
    case "clear tag":
      return `${whose(operation, names)} out of ${operation.relay === undefined ? "the keypad" : names.relay(operation.relay)}`;
    case "set installer":
      return "New installer code";
    case "set all-relay":
      return `${whose(operation, names)} as all-relay code${numbered(operation.slot, names)}`;
    case "clear all-relay":
      return `Take out the all-relay code${numbered(operation.slot, names)}`;
    case "set release":
      return operation.release === "toggle"
        ? `Release time of ${names.relay(operation.relay)}: until keyed again`
        : `Release time of ${names.relay(operation.relay)}: ${operation.release} s`;
    case "set length":
      return `Code length: ${operation.digits} digits`;
    case "set setting":
      return `Setting "${labelled(operation.label)}": ${operation.value}`;
    case "clear all":
      return model.operations.get("clear all")?.wipes
        ? "Clear everything: the keypad goes back to factory"
        : "Clear everything: every slot and the all-relay codes";
  }
}

/** Whose code or tag an operation types or takes out; undefined where the text does not know. */
export function credentialOf(operation: Operation, names: Names): Credential | undefined {
  const relay = relayOf(operation);
  const slot = slotOf(operation);
  switch (operation.operation) {
    case "put code":
    case "clear code":
    case "set all-relay":
      return names.code(operation.code, relay, slot);
    case "put tag":
    case "clear tag":
      return names.tag(operation.tag, relay, slot);
    default:
      return undefined;
  }
}

/** Why an entry is there that the text does not name. */
export function becauseWords(because: PlanEntry["because"]): string | undefined {
  switch (because) {
    case undefined:
      return undefined;
    case "frees a twin":
      return "The text no longer has it here; first because the keypad refuses one code or tag in two places.";
    case "frees a taken slot":
      return "Here because the keypad refuses to write into a taken slot.";
    case "breaks a cycle":
      return "Here because codes change places: one has to be out before the others can move.";
    case "would wake":
      return "Here because something stored there does not open now, but would after a later entry.";
    case "unknown before":
      return "Here because nobody can say what is stored there.";
    case "no longer wanted":
      return "Here because the text no longer has it.";
    case "length changed":
      return "Here because a new code length clears what was stored.";
    case "installer blocked":
      return "Here first because it would stand in the way of the new installer code.";
  }
}

/** Which place an operation means: "slot 02 of Foot gate", "slot 17" of shared numbers, the door where nothing is numbered. */
export function placeWords(operation: Operation, names: Names, model: Model): string {
  const relay = relayOf(operation) ?? names.before(undefined, slotOf(operation))?.fires;
  const slot = slotOf(operation);
  if (slot === undefined) return relay === undefined ? "the keypad" : `the place of ${names.relay(relay)}`;
  const number = `slot ${names.slot(slot)}`;
  return relay === undefined || model.slots.addressing === "shared" ? number : `${number} of ${names.relay(relay)}`;
}

function into(operation: Operation, names: Names, model: Model): string {
  const slot = slotOf(operation);
  const relay: RelaySet | undefined = relayOf(operation) ?? names.after(undefined, slot)?.fires;
  const door = relay === undefined ? undefined : names.relay(relay);
  if (slot === undefined) return door === undefined ? "into the keypad" : `for ${door}`;
  const number = `into slot ${names.slot(slot)}`;
  if (door === undefined) return number;
  return model.slots.addressing === "shared" ? `${number}, for ${door}` : `${number} of ${door}`;
}

function whose(operation: Operation, names: Names): string {
  const credential = credentialOf(operation, names);
  if (credential) return credentialWords(credential);
  return "tag" in operation ? `The ${tagWords(operation.tag)}` : "A code that is no one's in the text";
}

function heldBefore(operation: Operation, names: Names): string {
  const relay = relayOf(operation);
  const slot = names.before(relay, slotOf(operation));
  if (!slot) return "";
  if (slot.unknown) return " (nobody can say what it holds)";
  const what: string[] = [];
  if (slot.code !== undefined) {
    const credential = names.code(slot.code, slot.fires, slot.number);
    what.push(credential ? credentialWords(credential) : "a code");
  }
  if (slot.tag !== undefined) {
    const credential = names.tag(slot.tag, slot.fires, slot.number);
    what.push(credential ? credentialWords(credential) : tagWords(slot.tag));
  }
  return what.length ? ` (${listed(what)})` : "";
}

function numbered(slot: number | undefined, names: Names): string {
  return slot === undefined ? "" : ` ${names.slot(slot)}`;
}
