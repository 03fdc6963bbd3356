/** Where in the text each entry of a plan comes from, so that a sheet beside the text and the text lead to each other. */
import type { Place } from "../finding.ts";
import type { Operation } from "../keypad/memory.ts";
import type { Plan } from "../plan/plan.ts";
import type { Credential, Keypad } from "../site/site.ts";

/**
 * By the number of the entry. What the text no longer has, and what is typed for the keypad as a whole, comes from the
 * keypad's name.
 */
export function entryPlaces(keypad: Keypad, plan: Plan): ReadonlyMap<number, Place> {
  const { file, node } = keypad;
  const { start, end } = node.label ?? node.name ?? node.keyword;
  const name: Place = { file, start, end };
  const entries = plan.sessions.flatMap(session => session.entries);
  return new Map(entries.map(({ n, operation }) => [n, placeOf(keypad, operation) ?? name]));
}

function placeOf(keypad: Keypad, operation: Operation): Place | undefined {
  const { file } = keypad;
  const at = (span: { readonly start: number; readonly end: number } | undefined): Place | undefined =>
    span && { file, start: span.start, end: span.end };
  switch (operation.operation) {
    case "put code":
    case "put tag":
    case "clear slot":
      return placementAt(keypad, operation);
    case "set installer":
      return at(keypad.installer?.node);
    case "set all-relay":
      return at(keypad.allRelay.find(({ number, held }) => number === operation.slot && held?.credential?.digits === operation.code)?.node);
    case "set release":
      return at(keypad.relays.find(({ set }) => set === operation.relay)?.node.release);
    case "set setting":
      return at(keypad.settings.find(({ label }) => label === operation.label)?.span);
    case "set length":
      return at(keypad.node.facts.find(fact => fact.kind === "code-length"));
    default:
      return undefined;
  }
}

function placementAt(
  keypad: Keypad,
  operation: Extract<Operation, { operation: "put code" | "put tag" | "clear slot" }>,
): Place | undefined {
  const here = keypad.placements.filter(
    ({ relay, slot }) => slot === operation.slot && (operation.relay === undefined || relay.set === operation.relay),
  );
  const wanted = (credential: Credential | undefined): boolean => {
    if (operation.operation === "put code") return credential?.digits === operation.code;
    return operation.operation === "clear slot" || credential?.tag === operation.tag;
  };
  const found = here.find(({ held }) => held.some(({ credential }) => wanted(credential)));
  // An unnumbered memory has no slot to clear; nothing of the text is meant by it then.
  if (!found || (operation.operation === "clear slot" && operation.slot === undefined)) return undefined;
  return { file: found.file, start: found.node.start, end: found.node.end };
}
