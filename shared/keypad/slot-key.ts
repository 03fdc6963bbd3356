/** Where a place of the memory is, as text: the one maker of slot keys, and what the number of a place may hold. */
import type { Digits, SlotKey, TagId } from "./memory.ts";
import type { Model, RelaySet, SlotBand } from "./model.ts";

/**
 * The key of a place, by the model's addressing.
 *
 * @param relay the relay or set that is typed or fired; where the model has one relay and none is typed, `soleRelay`.
 * @param number the place's number; undefined where places have none.
 * @param content what is stored, which on unnumbered memories is what finds the place again.
 */
export function slotKey(
  model: Model,
  relay: RelaySet | undefined,
  number: number | undefined,
  content: { readonly code?: Digits; readonly tag?: TagId } = {},
): SlotKey {
  const fires = relay ?? soleRelay(model) ?? "";
  switch (model.slots.addressing) {
    case "per relay":
      return `${fires}/${number ?? ""}`;
    case "shared":
      return `${number ?? ""}`;
    case "one per relay":
      return fires;
    case "unnumbered":
      return `${fires}:${content.code ?? (content.tag === undefined ? "" : `tag:${content.tag}`)}`;
  }
}

/** The relay meant where a template has no relay field: the only one there is. */
export function soleRelay(model: Model): RelaySet | undefined {
  if (model.relays.size !== 1) return undefined;
  for (const relay of model.relays.keys()) return relay;
  return undefined;
}

/** Places are numbered: `per relay` or `shared`. */
export function isNumbered(model: Model): boolean {
  return model.slots.addressing === "per relay" || model.slots.addressing === "shared";
}

/** The range of the `slots` line that a number lies in; undefined outside all of them. */
export function bandOf(model: Model, number: number): SlotBand | undefined {
  return model.slots.bands.find(band => band.from <= number && number <= band.to);
}

/** All-relay codes are kept by number: a range of the `slots` line is kept for them. */
export function numbersAllRelay(model: Model): boolean {
  return model.slots.bands.some(band => band.kept === "all-relay");
}
