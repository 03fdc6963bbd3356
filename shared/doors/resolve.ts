/** The doors of a site as they are wired: what lock each has, and which relays work it. */
import type { DoorDecl, DoorFact, Word } from "../../grammar/tree.ts";
import type { FileId } from "../finding.ts";
import type { KeypadRelay, Site } from "../site/site.ts";

export const lockKinds = ["strike", "magnet", "bolt", "motor lock", "start contact"] as const;
export type LockKind = (typeof lockKinds)[number];

export interface WiredDoor {
  readonly label: string;
  readonly file: FileId;
  readonly node: DoorDecl;
  readonly lock?: LockKind;
  /** The relays that carry the door's label, on any keypad. */
  readonly relays: readonly KeypadRelay[];
}

/** The fact of one kind that a door has; the first where there are two. */
export function factOf(door: DoorDecl, kind: DoorFact["kind"]): DoorFact | undefined {
  return door.facts.find(fact => fact.kind === kind);
}

/** Does a fact of the door say this word (or fixed phrase)? */
export function says(door: DoorDecl, kind: DoorFact["kind"], phrase: string): Word | undefined {
  return factOf(door, kind)?.words.find(word => word.text === phrase);
}

/** Every door that has a label, in the order of the text. */
export function doorsOf(site: Site): readonly WiredDoor[] {
  if (site.doors.length === 0) return [];
  const relays = new Map<string, KeypadRelay[]>();
  for (const keypad of site.keypads.values()) {
    for (const relay of keypad.relays) {
      if (relay.label === undefined) continue;
      const same = relays.get(relay.label);
      if (same) same.push(relay);
      else relays.set(relay.label, [relay]);
    }
  }
  return site.doors.flatMap(({ file, node }) => {
    const label = node.label?.text;
    if (label === undefined) return [];
    const lock = lockKinds.find(kind => says(node, "lock", kind));
    return [{ label, file, node, ...(lock ? { lock } : {}), relays: relays.get(label) ?? [] }];
  });
}
