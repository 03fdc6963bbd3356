/** What a keypad is to hold: the text's words about it as a memory. */
import type { AllRelay, Digits, Memory, Slot, SlotKey, TagId } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { isNumbered, slotKey } from "../keypad/slot-key.ts";
import type { Keypad, Placement } from "../site/site.ts";

/**
 * The memory that the text wants, places in the order of the text.
 *
 * What the text does not say of the installer code, the code length, release times and settings is as `before`: it is not
 * touched. Slots and all-relay codes are exactly the text's. Lapsed and lost credentials that are still placed are still
 * wanted: a date never changes a plan silently. What is half typed, or names nobody, is left out.
 */
export function wantedMemory(keypad: Keypad, before: Memory): Memory {
  const known = knownWanted.get(keypad);
  if (known?.before === before) return known.wanted;
  const wanted = wantedBy(keypad, before);
  knownWanted.set(keypad, { before, wanted });
  return wanted;
}

/** A keypad and a memory are values, so that the same two want the same; several checks ask, and the planner after them. */
const knownWanted = new WeakMap<Keypad, { readonly before: Memory; readonly wanted: Memory }>();

function wantedBy(keypad: Keypad, before: Memory): Memory {
  const { model } = keypad;
  const installer = keypad.installer?.digits ?? keypad.installer?.held?.credential?.digits ?? before.installer;
  const codeLength = keypad.codeLength ?? before.codeLength;
  const releases = new Map(before.releases);
  for (const { set, release } of keypad.relays) if (release !== undefined) releases.set(set, release);
  const settings = new Map(before.settings);
  for (const { label, value } of keypad.settings) if (value !== undefined) settings.set(label, value);
  const slots = new Map<SlotKey, Slot>();
  if (model)
    for (const placement of keypad.placements)
      for (const slot of slotsOf(model, placement)) if (!slots.has(slot.key)) slots.set(slot.key, slot);
  return {
    ...(installer === undefined ? {} : { installer }),
    ...(codeLength === undefined ? {} : { codeLength }),
    allRelay: allRelayOf(keypad),
    releases,
    settings,
    slots,
  };
}

function allRelayOf(keypad: Keypad): ReadonlyMap<string, AllRelay> {
  const codes = new Map<string, AllRelay>();
  for (const { number, held } of keypad.allRelay) {
    const code = held?.credential?.digits;
    const key = number === undefined ? "" : String(number);
    if (code !== undefined && !codes.has(key)) codes.set(key, { ...(number === undefined ? {} : { number }), code });
  }
  return codes;
}

/** One place, or on a memory without numbers one for each code and tag. */
function slotsOf(model: Model, placement: Placement): readonly Slot[] {
  if (isNumbered(model) && placement.slot === undefined) return [];
  const content = contentOf(placement);
  const unnumbered = model.slots.addressing === "unnumbered";
  const { code, tag } = content;
  if (code === undefined && tag === undefined) return [];
  const { set } = placement.relay;
  const slotWith = (part: Content): Slot => ({
    key: slotKey(model, set, placement.slot, part),
    fires: set,
    number: placement.slot,
    code: part.code,
    tag: part.tag,
    ...(model.slots.holds === "code with tag" ? { needsBoth: true } : {}),
  });
  return unnumbered && code !== undefined && tag !== undefined ? [slotWith({ code }), slotWith({ tag })] : [slotWith(content)];
}

interface Content {
  readonly code?: Digits;
  readonly tag?: TagId;
}

function contentOf({ held }: Placement): Content {
  const code = held.find(use => use.credential?.kind === "code")?.credential?.digits;
  const tag = held.find(use => use.credential?.kind === "tag")?.credential?.tag;
  return { code, tag };
}
