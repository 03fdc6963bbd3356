/** Who and what stands behind the digits of one keypad: holders of codes and tags, doors behind relays, slots as typed. */
import type { Digits, Memory, Operation, Slot, TagId } from "../keypad/memory.ts";
import type { Model, RelaySet } from "../keypad/model.ts";
import { slotText } from "../keypad/slot-text.ts";
import type { Credential, Keypad, Site } from "../site/site.ts";
import { labelled, visible } from "./visible.ts";

export interface Names {
  /** The door behind a relay or set: "Foot gate", "Foot gate and Porch", "relay 3" where it has no label. */
  relay(set: RelaySet): string;
  /** Several relays fired at once, by single relay. */
  doors(relays: readonly string[]): string;
  /** A slot number as it is typed, with its zeros. */
  slot(number: number): string;
  /** Whose code it is: the one placed there, else the one placed on this keypad, else anyone's of the site. */
  code(digits: Digits, relay?: RelaySet, slot?: number): Credential | undefined;
  tag(tag: TagId, relay?: RelaySet, slot?: number): Credential | undefined;
  /** What the place that an operation speaks of held before, where that is known. */
  before(relay: RelaySet | undefined, slot: number | undefined): Slot | undefined;
  /** What it is to hold. */
  after(relay: RelaySet | undefined, slot: number | undefined): Slot | undefined;
}

/** Reads a site once for all the words of one keypad's sheet. */
export function namesOf(site: Site, keypad: Keypad, model: Model, before?: Memory, target?: Memory): Names {
  const labels = new Map(keypad.relays.map(relay => [relay.set, relay.label]));
  const placed = new Map<string, Credential>();
  const anywhere = new Map<string, Credential>();
  const remember = (into: Map<string, Credential>, key: string, credential: Credential) => {
    if (!into.has(key)) into.set(key, credential);
  };
  for (const placement of keypad.placements)
    for (const { credential } of placement.held) {
      const id = credential && identity(credential);
      if (!credential || id === undefined) continue;
      remember(placed, place(placement.relay.set, placement.slot, id), credential);
      remember(placed, place(undefined, placement.slot, id), credential);
      remember(anywhere, id, credential);
    }
  for (const { held, number } of keypad.allRelay)
    if (held?.credential) {
      const id = identity(held.credential);
      if (id === undefined) continue;
      remember(placed, place(undefined, number, id), held.credential);
      remember(anywhere, id, held.credential);
    }
  for (const holder of site.holders.values())
    for (const credential of holder.credentials) {
      const id = identity(credential);
      if (id !== undefined) remember(anywhere, id, credential);
    }

  const relay = (set: RelaySet): string => {
    const own = labels.get(set);
    if (own !== undefined) return labelled(own);
    const members = set.split("+");
    if (members.length === 1) return `relay ${set}`;
    return listed(members.map(relay));
  };
  const find = (id: string, set: RelaySet | undefined, slot: number | undefined) =>
    placed.get(place(set, slot, id)) ?? placed.get(place(undefined, slot, id)) ?? anywhere.get(id);
  const held = { before: placesOf(before), after: placesOf(target) };
  return {
    relay,
    doors: relays => (labels.get(relays.join("+")) === undefined ? listed([...new Set(relays.map(relay))]) : relay(relays.join("+"))),
    slot: number => slotText(model, number),
    code: (digits, set, slot) => find(`code ${digits}`, set, slot),
    tag: (tag, set, slot) => find(`tag ${tag}`, set, slot),
    before: (set, slot) => held.before.get(place(set, slot, "")),
    after: (set, slot) => held.after.get(place(set, slot, "")),
  };
}

/** "Unit 2's code", `Unit 3's tag "bike" (blue fob)`. */
export function credentialWords(credential: Credential): string {
  const name = credential.name === undefined ? "" : ` "${credential.name}"`;
  const mark = credential.kind === "tag" && credential.mark !== undefined ? ` (${labelled(credential.mark)})` : "";
  return `${possessive(labelled(credential.holder.label))} ${credential.kind}${name}${mark}`;
}

/** "tag 8061261", or the mark of a tag without a number. */
export function tagWords(tag: TagId): string {
  return `tag ${visible(tag)}`;
}

/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join("");
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

/** Whether an operation speaks of one place of the memory. */
export function slotOf(operation: Operation): number | undefined {
  return "slot" in operation ? operation.slot : undefined;
}

export function relayOf(operation: Operation): RelaySet | undefined {
  return "relay" in operation ? operation.relay : undefined;
}

function possessive(label: string): string {
  return /s\u2069?$/i.test(label) ? `${label}'` : `${label}'s`;
}

function identity(credential: Credential): string | undefined {
  if (credential.kind === "code") return credential.digits === undefined ? undefined : `code ${credential.digits}`;
  return credential.tag === undefined ? undefined : `tag ${credential.tag}`;
}

function place(set: RelaySet | undefined, slot: number | undefined, id: string): string {
  return `${set ?? ""}/${slot ?? ""} ${id}`;
}

/** Places by relay and number, and by number alone for memories that share their numbers. */
function placesOf(memory: Memory | undefined): ReadonlyMap<string, Slot> {
  const places = new Map<string, Slot>();
  for (const slot of memory?.slots.values() ?? []) {
    places.set(place(slot.fires, slot.number, ""), slot);
    const alone = place(undefined, slot.number, "");
    if (!places.has(alone)) places.set(alone, slot);
  }
  return places;
}
