/** What the keypad does with an entry that it has understood: takes it, by the model's rules, or refuses it and changes nothing. */
import type { Draft } from "./draft.ts";
import { remove, removeAll, store } from "./draft.ts";
import { codeLengthsInForce } from "./lengths.ts";
import type { Operation, Refusal, RefusalKind, Slot } from "./memory.ts";
import type { Model, RelaySet, SlotKind } from "./model.ts";
import { bandOf, isNumbered, numbersAllRelay, slotKey, soleRelay } from "./slot-key.ts";

type Put = Extract<Operation, { readonly operation: "put code" | "put tag" }>;
type Of<Name extends Operation["operation"]> = Extract<Operation, { readonly operation: Name }>;

/**
 * Applies one operation.
 *
 * Reasons are tried in this order: what the keypad could not have read (`unknown-keys`), the place's number (`slot-range`),
 * its kind (`slot-kind`), what is in it (`slot-taken`), the same content elsewhere (`twin`), room (`memory-full`).
 *
 * @returns why it was refused, in which case the draft is as before; undefined where it was taken.
 */
export function apply(model: Model, draft: Draft, operation: Operation): Refusal | undefined {
  if (!understands(model, operation)) return refusal("unknown-keys", operation);
  switch (operation.operation) {
    case "put code":
    case "put tag":
      return put(model, draft, operation);
    case "clear slot":
      return clearSlot(model, draft, operation);
    case "clear code":
    case "clear tag":
      return clearContent(draft, operation);
    case "set installer":
      return setInstaller(model, draft, operation);
    case "set all-relay":
      return setAllRelay(model, draft, operation);
    case "clear all-relay":
      return clearAllRelay(model, draft, operation);
    case "set release":
      return setRelease(model, draft, operation);
    case "set length":
      return setLength(model, draft, operation);
    case "set setting":
      return setSetting(model, draft, operation);
    case "clear all":
      return clearAll(model, draft);
  }
}

/** The keypad has this operation, and the relay that is typed. */
function understands(model: Model, operation: Operation): boolean {
  if (operation.operation === "set setting") return model.settings.has(operation.label);
  if (!model.operations.has(operation.operation)) return false;
  return !("relay" in operation) || operation.relay === undefined || model.relays.has(operation.relay);
}

function put(model: Model, draft: Draft, operation: Put): Refusal | undefined {
  const half = operation.operation === "put code" ? "code" : "tag";
  const content = operation.operation === "put code" ? operation.code : operation.tag;
  if (operation.operation === "put code" && !codeLengthsInForce(model, draft).includes(content.length)) {
    return refusal("unknown-keys", operation);
  }
  const outside = placeRefusal(model, operation.slot, half === "code" ? "codes" : "tags");
  if (outside) return refusal(outside, operation);

  const fires = operation.relay ?? soleRelay(model);
  const key = slotKey(model, fires, operation.slot, { [half]: content });
  const before = draft.slots.get(key);
  const numbered = model.slots.addressing !== "unnumbered";
  if (numbered && before && model.rewrite === "refused" && isTaken(model, before, half, fires)) return refusal("slot-taken", operation);
  // Without numbers the keypad looks for another place, so that a second writing of the same is a twin as well.
  if (model.twins === "refused" && isElsewhere(draft, half, content, numbered ? key : undefined)) return refusal("twin", operation);
  if (!numbered && !before && draft.slots.size >= model.slots.capacity) return refusal("memory-full", operation);

  store(draft, {
    ...(before && model.slots.holds !== "one" ? otherHalf(before, half) : {}),
    key,
    ...(fires === undefined ? {} : { fires }),
    ...(operation.slot === undefined || !isNumbered(model) ? {} : { number: operation.slot }),
    [half]: content,
    ...(model.slots.holds === "code with tag" ? { needsBoth: true } : {}),
  });
  return undefined;
}

/** What of a pair's place stays when one half is written: the other half, and the doubt about it. */
function otherHalf(before: Slot, half: "code" | "tag"): Partial<Slot> {
  const other = half === "code" ? "tag" : "code";
  const content = before[other];
  if (content !== undefined) return { [other]: content };
  return before.unknown ? { unknown: true } : {};
}

/**
 * Something stands where it would be written. In memories of pairs the other half does not count, unless it fires other
 * relays (the place as a whole fires what is typed last). What nobody knows is taken to be taken.
 */
function isTaken(model: Model, place: Slot, half: "code" | "tag", fires: RelaySet | undefined): boolean {
  if (model.slots.holds === "one") return true;
  return place[half] !== undefined || place.unknown === true || (place.fires !== undefined && place.fires !== fires);
}

/** The same code or tag in another place than `own`: slots, and for a code the all-relay codes. Places that nobody knows do not count. */
function isElsewhere(draft: Draft, half: "code" | "tag", content: string, own: string | undefined): boolean {
  const keys = (half === "code" ? draft.codes : draft.tags).get(content);
  if (keys && (keys.size > 1 || own === undefined || !keys.has(own))) return true;
  return half === "code" && allRelayHolds(draft, content, undefined);
}

function allRelayHolds(draft: Draft, code: string, except: string | undefined): boolean {
  for (const [number, { code: stored }] of draft.allRelay) if (stored === code && number !== except) return true;
  return false;
}

function placeRefusal(model: Model, number: number | undefined, kind: SlotKind | "any slot"): RefusalKind | undefined {
  if (!isNumbered(model) || number === undefined) return undefined;
  const band = bandOf(model, number);
  if (!band) return "slot-range";
  if (kind === "any slot") return band.kept === "all-relay" ? "slot-kind" : undefined;
  if (kind === "all-relay") return band.kept === "all-relay" ? undefined : "slot-kind";
  return band.kept === undefined || band.kept === kind ? undefined : "slot-kind";
}

function clearSlot(model: Model, draft: Draft, operation: Of<"clear slot">): Refusal | undefined {
  const outside = placeRefusal(model, operation.slot, "any slot");
  if (outside) return refusal(outside, operation);
  remove(draft, slotKey(model, operation.relay, operation.slot));
  return undefined;
}

/** Takes every place that holds it, whole; with a relay only those that fire exactly that relay or set. */
function clearContent(draft: Draft, operation: Of<"clear code"> | Of<"clear tag">): undefined {
  const keys = operation.operation === "clear code" ? draft.codes.get(operation.code) : draft.tags.get(operation.tag);
  for (const key of [...(keys ?? [])]) {
    if (operation.relay === undefined || draft.slots.get(key)?.fires === operation.relay) remove(draft, key);
  }
  if (operation.operation === "clear code" && operation.relay === undefined) removeAllRelay(draft, operation.code);
}

function removeAllRelay(draft: Draft, code: string): void {
  for (const [number, stored] of [...draft.allRelay]) if (stored.code === code) draft.allRelay.delete(number);
}

function setInstaller(model: Model, draft: Draft, operation: Of<"set installer">): Refusal | undefined {
  if (!model.installerLengths.includes(operation.code.length)) return refusal("unknown-keys", operation);
  const before = draft.installer?.length;
  draft.installer = operation.code;
  if (model.length === "follows installer code") relength(model, draft, before, operation.code.length);
  return undefined;
}

function setLength(model: Model, draft: Draft, operation: Of<"set length">): Refusal | undefined {
  if (!model.codeLengths.includes(operation.digits)) return refusal("setting-range", operation);
  const before = draft.codeLength ?? model.factory.codeLength;
  draft.codeLength = operation.digits;
  relength(model, draft, before, operation.digits);
  return undefined;
}

/**
 * A new code length where `relength clears`: codes and all-relay codes go, tags stay. Where nobody knows the length
 * before, nobody knows what is left of the codes.
 */
function relength(model: Model, draft: Draft, before: number | undefined, now: number): void {
  if (model.relength === "keeps" || before === now) return;
  for (const slot of [...draft.slots.values()]) {
    const { code, ...rest } = slot;
    if (code === undefined && !(slot.unknown && holdsOnlyCodes(model, slot))) continue;
    if (before === undefined) store(draft, { ...rest, unknown: true });
    else if (slot.tag !== undefined || (slot.unknown && !holdsOnlyCodes(model, slot))) store(draft, rest);
    else remove(draft, slot.key);
  }
  if (before !== undefined) draft.allRelay.clear();
  else
    for (const [key, { number }] of [...draft.allRelay])
      draft.allRelay.set(key, { ...(number === undefined ? {} : { number }), unknown: true });
}

function holdsOnlyCodes(model: Model, slot: Slot): boolean {
  if (!model.operations.has("put tag")) return true;
  return slot.number !== undefined && bandOf(model, slot.number)?.kept === "codes";
}

function setAllRelay(model: Model, draft: Draft, operation: Of<"set all-relay">): Refusal | undefined {
  if (!codeLengthsInForce(model, draft).includes(operation.code.length)) return refusal("unknown-keys", operation);
  const numbered = numbersAllRelay(model) && operation.slot !== undefined;
  const outside = numbered ? placeRefusal(model, operation.slot, "all-relay") : undefined;
  if (outside) return refusal(outside, operation);
  const key = numbered ? `${operation.slot}` : "";
  if (numbered && model.rewrite === "refused" && draft.allRelay.has(key)) return refusal("slot-taken", operation);
  if (model.twins === "refused" && (draft.codes.has(operation.code) || allRelayHolds(draft, operation.code, key))) {
    return refusal("twin", operation);
  }
  draft.allRelay.set(key, { ...(numbered ? { number: operation.slot } : {}), code: operation.code });
  return undefined;
}

/** By number, by code, or, where the keys say neither, all of them. */
function clearAllRelay(model: Model, draft: Draft, operation: Of<"clear all-relay">): Refusal | undefined {
  const outside = numbersAllRelay(model) ? placeRefusal(model, operation.slot, "all-relay") : undefined;
  if (outside) return refusal(outside, operation);
  if (operation.slot !== undefined) draft.allRelay.delete(`${operation.slot}`);
  else if (operation.code !== undefined) removeAllRelay(draft, operation.code);
  else draft.allRelay.clear();
  return undefined;
}

function setRelease(model: Model, draft: Draft, operation: Of<"set release">): Refusal | undefined {
  const { release } = operation;
  const range = model.release;
  const fits = release === "toggle" ? range?.toggle !== undefined : range !== undefined && range.min <= release && release <= range.max;
  if (!fits) return refusal("setting-range", operation);
  draft.releases.set(operation.relay, release);
  return undefined;
}

function setSetting(model: Model, draft: Draft, operation: Of<"set setting">): Refusal | undefined {
  const setting = model.settings.get(operation.label);
  if (!setting || operation.value < setting.min || operation.value > setting.max) return refusal("setting-range", operation);
  draft.settings.set(operation.label, operation.value);
  return undefined;
}

/** Every slot and the all-relay codes; with `wipes everything` back to what the keypad holds when new. */
function clearAll(model: Model, draft: Draft): undefined {
  removeAll(draft);
  draft.allRelay.clear();
  if (!model.operations.get("clear all")?.wipes) return;
  const { factory } = model;
  draft.installer = factory.installer;
  draft.codeLength = factory.codeLength;
  draft.releases.clear();
  draft.settings.clear();
  for (const [relay, release] of factory.releases) draft.releases.set(relay, release);
  for (const [label, value] of factory.settings) draft.settings.set(label, value);
  for (const [number, stored] of factory.allRelay) draft.allRelay.set(number, stored);
  for (const slot of factory.slots.values()) store(draft, slot);
}

function refusal(kind: RefusalKind, operation: Operation): Refusal {
  return {
    kind,
    ...("slot" in operation && operation.slot !== undefined ? { slot: operation.slot } : {}),
    ...("relay" in operation && operation.relay !== undefined ? { relay: operation.relay } : {}),
  };
}
