/** Which places an operation may touch, found without looking at all of them. */
import type { Draft } from "../keypad/draft.ts";
import type { Operation, SlotKey } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { numbersAllRelay, slotKey, soleRelay } from "../keypad/slot-key.ts";

/**
 * To be asked before the operation is applied: afterwards what it took is gone. `clear all` and a new code length touch every
 * place and are not answered here.
 */
export function touchedBy(
  model: Model,
  draft: Draft,
  operation: Operation,
): { readonly slots: readonly SlotKey[]; readonly allRelay: readonly string[] } {
  switch (operation.operation) {
    case "put code":
      return slot(slotKey(model, operation.relay ?? soleRelay(model), operation.slot, { code: operation.code }));
    case "put tag":
      return slot(slotKey(model, operation.relay ?? soleRelay(model), operation.slot, { tag: operation.tag }));
    case "clear slot":
      return slot(slotKey(model, operation.relay, operation.slot));
    case "clear code":
      return { slots: [...(draft.codes.get(operation.code) ?? [])], allRelay: allRelayOf(draft, operation.code) };
    case "clear tag":
      return { slots: [...(draft.tags.get(operation.tag) ?? [])], allRelay: [] };
    case "set all-relay":
      return { slots: [], allRelay: [numbersAllRelay(model) && operation.slot !== undefined ? `${operation.slot}` : ""] };
    case "clear all-relay":
      if (operation.slot !== undefined) return { slots: [], allRelay: [`${operation.slot}`] };
      return { slots: [], allRelay: operation.code === undefined ? [...draft.allRelay.keys()] : allRelayOf(draft, operation.code) };
    default:
      return { slots: [], allRelay: [] };
  }
}

function slot(key: SlotKey): { readonly slots: readonly SlotKey[]; readonly allRelay: readonly string[] } {
  return { slots: [key], allRelay: [] };
}

function allRelayOf(draft: Draft, code: string): readonly string[] {
  return [...draft.allRelay].filter(([, stored]) => stored.code === code).map(([key]) => key);
}
