/** The operation that writes or clears one place, with just the fields that the model's keys have. */
import type { OperationName } from "../../grammar/tree.ts";
import type { Operation } from "../keypad/memory.ts";
import type { Model, RelaySet } from "../keypad/model.ts";
import type { Half, Place } from "./place.ts";

/** Writes one half of a place; undefined where the model has no such entry. */
export function writing(model: Model, place: Place, half: Half): Operation | undefined {
  const { code, tag, fires } = place.to;
  const slot = place.number === undefined ? {} : { slot: place.number };
  if (place.kind === "all-relay") {
    if (!model.operations.has("set all-relay") || code === undefined) return undefined;
    return { operation: "set all-relay", ...(asks(model, "set all-relay", "slot") ? slot : {}), code };
  }
  const operation = half === "code" ? "put code" : "put tag";
  if (!model.operations.has(operation)) return undefined;
  const fields = { ...relayField(model, operation, fires), ...(asks(model, operation, "slot") ? slot : {}) };
  if (half === "code") return code === undefined ? undefined : { operation: "put code", ...fields, code };
  return tag === undefined ? undefined : { operation: "put tag", ...fields, tag };
}

/** Whether the keys of an operation have a field; `relay` in either spelling. */
export function asks(model: Model, operation: OperationName, field: "relay" | "slot" | "code" | "tag" | "installer"): boolean {
  return (
    model.operations
      .get(operation)
      ?.template.some(
        element => element.kind === "field" && (element.name.text === field || (field === "relay" && element.name.text === "relay-number")),
      ) ?? false
  );
}

export function relayField(model: Model, operation: OperationName, relay: RelaySet | undefined): { readonly relay?: RelaySet } {
  return relay !== undefined && asks(model, operation, "relay") ? { relay } : {};
}
