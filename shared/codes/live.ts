/** The codes of one keypad as the text has them: whose, what each opens, and which of them are at the door already. */
import type { Digits } from "../keypad/memory.ts";
import type { Credential, Keypad, KeypadRelay } from "../site/site.ts";

export interface LiveCode {
  readonly credential: Credential;
  readonly digits: Digits;
  /** Doors that it releases, by label (relay where it has none), joined: equal text means the same doors. */
  readonly opens: string;
  /** The same digits are in the fitted record of the keypad. */
  readonly fitted: boolean;
}

/** Codes in slots and all-relay codes, each code once a place, in the order of the text. Codes that are still to be typed in full are left out. */
export function liveCodes(keypad: Keypad): readonly LiveCode[] {
  const fitted = fittedCodes(keypad);
  const live: LiveCode[] = [];
  const add = (credential: Credential | undefined, opens: string) => {
    if (credential?.kind !== "code" || credential.digits === undefined) return;
    live.push({ credential, digits: credential.digits, opens, fitted: fitted.has(credential.digits) });
  };
  const every = doorsOf(keypad.relays);
  for (const { held } of keypad.allRelay) add(held?.credential, every);
  for (const relay of keypad.relays) {
    const doors = firesDoors(keypad, relay);
    for (const { held } of relay.placements) for (const use of held) add(use.credential, doors);
  }
  return live;
}

/** Every code that the record of a keypad knows to be in its slots or among its all-relay codes. */
export function fittedCodes(keypad: Keypad): ReadonlySet<Digits> {
  const memory = keypad.fitted?.memory;
  const codes = new Set<Digits>();
  for (const slot of memory?.slots.values() ?? []) if (slot.code !== undefined) codes.add(slot.code);
  for (const { code } of memory?.allRelay.values() ?? []) if (code !== undefined) codes.add(code);
  return codes;
}

/** What a relay or a set releases: the labels of its single relays where they have them. */
function firesDoors(keypad: Keypad, relay: KeypadRelay): string {
  const single = relay.set.split("+").map(number => keypad.relays.find(one => one.set === number) ?? relay);
  return doorsOf(single);
}

function doorsOf(relays: readonly KeypadRelay[]): string {
  return [...new Set(relays.filter(relay => !relay.spare).map(relay => relay.label ?? `relay ${relay.set}`))].sort().join(" + ");
}
