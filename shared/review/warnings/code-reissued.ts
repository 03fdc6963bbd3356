/** Digits that somebody else had are given to a holder: who had them can open with them again. */
import type { Digits, Slot } from "../../keypad/memory.ts";
import { slotText } from "../../keypad/slot-text.ts";
import { listed } from "../../sheet/names.ts";
import { labelled } from "../../sheet/visible.ts";
import type { Credential, Holder, Keypad, Site } from "../../site/site.ts";
import type { Pair } from "../match.ts";
import type { Found, Warning } from "./warning.ts";

export const codeReissued: Warning = {
  code: "code-reissued",
  explain: {
    what: "A holder is given digits that were somebody else's in the old text, or that a keypad still holds for somebody else by its record.",
    why: "Whoever had them knows them, and opens with them as soon as they are typed. Draw a new code: `mullion issue`.",
    before: `holder u2 "Unit 2" code 5591\nholder u3 "Unit 3" code 7304`,
    triggers: `holder u3 "Unit 3" code 7304\nholder u4 "Unit 4" code 5591`,
    quiet: `holder u3 "Unit 3" code 7304\nholder u4 "Unit 4" code 8237`,
  },
  find: (before, _after, holders, keypads) => {
    const had = ownersOf(before);
    return holders.flatMap(({ was, is }) => {
      if (!is) return [];
      const own = new Set(was?.credentials.map(({ digits }) => digits));
      return is.credentials.flatMap(credential => {
        const { digits } = credential;
        if (credential.kind !== "code" || digits === undefined || own.has(digits)) return [];
        const found = foundWith(digits, is, was, had.get(digits) ?? [], keypads);
        return found.length === 0 ? [] : [{ holder: is.id, message: `${whose(credential)} is one that ${listed(found)}` } satisfies Found];
      });
    });
  },
};

/** In words: who had the digits, else where they are still fitted for nobody that this is known of. */
function foundWith(
  digits: Digits,
  is: Holder,
  was: Holder | undefined,
  owners: readonly Credential[],
  keypads: readonly Pair<Keypad>[],
): readonly string[] {
  const others = [...new Set(owners.map(({ holder }) => holder))].filter(holder => holder !== was);
  if (others.length > 0) return others.map(({ label }) => `${labelled(label)} had`);
  const places = new Set<string>();
  for (const pair of keypads) {
    const then = placesWith(pair.was, digits);
    const already = new Set(then.map(({ words }) => words));
    // What is theirs: a place where the old text had them, or one that was recorded together with the new text.
    for (const place of then) if (!was || !isPlaced(pair.was, was, place)) places.add(place.words);
    for (const place of placesWith(pair.is, digits))
      if (!already.has(place.words) && !isPlaced(pair.is, is, place)) places.add(place.words);
  }
  return [...places].map(words => `${words} holds, by the record, for somebody else`);
}

interface Held {
  readonly slot?: Slot;
  readonly words: string;
}

function placesWith(keypad: Keypad | undefined, digits: Digits): readonly Held[] {
  const memory = keypad?.fitted?.memory;
  if (!keypad || !memory) return [];
  const at = labelled(keypad.label);
  const slots = [...memory.slots.values()].flatMap((slot): readonly Held[] => {
    if (slot.code !== digits || slot.unknown) return [];
    const label = keypad.relays.find(({ set }) => set === slot.fires)?.label;
    const door = label === undefined ? at : labelled(label);
    const number = slot.number === undefined ? "" : `slot ${slotText(keypad.model, slot.number)} of `;
    return [{ slot, words: `${number}${door}` }];
  });
  const allRelay = [...memory.allRelay.values()].some(({ code }) => code === digits);
  const installer = memory.installer === digits;
  return [
    ...slots,
    ...(allRelay ? [{ words: `the all-relay code of ${at}` }] : []),
    ...(installer ? [{ words: `the installer code of ${at}` }] : []),
  ];
}

/** The text has the holder there, with whatever code. */
function isPlaced(keypad: Keypad | undefined, holder: Holder, { slot }: Held): boolean {
  if (!keypad) return false;
  const isOwn = (credential: Credential | undefined) => credential?.holder === holder;
  if (!slot) return keypad.allRelay.some(({ held }) => isOwn(held?.credential)) || isOwn(keypad.installer?.held?.credential);
  return keypad.placements.some(
    placement =>
      placement.relay.set === slot.fires && placement.slot === slot.number && placement.held.some(({ credential }) => isOwn(credential)),
  );
}

/** Whose each code was in the old text. */
function ownersOf(site: Site): ReadonlyMap<Digits, readonly Credential[]> {
  const owners = new Map<Digits, Credential[]>();
  for (const { credentials } of site.holders.values())
    for (const credential of credentials) {
      if (credential.kind !== "code" || credential.digits === undefined) continue;
      owners.set(credential.digits, [...(owners.get(credential.digits) ?? []), credential]);
    }
  return owners;
}

function whose({ holder, name }: Credential): string {
  return name === undefined ? `the new code of ${labelled(holder.label)}` : `the new code "${name}" of ${labelled(holder.label)}`;
}
