/** Which codes may be drawn for somebody: what every keypad where it is used leaves of all codes, rule by rule. */
import type { Digits } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { codeStrings, openStrings } from "../keypad/open-strings.ts";
import { wantedMemory } from "../plan/wanted.ts";
import type { Credential, Keypad, Site } from "../site/site.ts";
import type { HeldAt } from "../site/where.ts";
import { usesOf } from "../site/where.ts";
import type { DrawRule } from "./draw.ts";
import { fittedCodes, liveCodes } from "./live.ts";
import { nearAny } from "./near.ts";
import { weakness } from "./weak.ts";

/** @param credential undefined where the text does not have it yet: then it may come to open any door of the keypads */
export function allowedRules(site: Site, credential: Credential | undefined, keypads: readonly Keypad[]): readonly DrawRule[] {
  const uses = credential ? usesOf(site, credential) : [];
  const { taken, installers } = takenAt(keypads);
  const { places } = site.policy.nearCodes;
  const near = keypads.map(keypad => nearAny(atOtherDoors(keypad, credential), places));
  const heard = keypads.flatMap(keypad => {
    const here = uses.filter(use => use.keypad === keypad);
    return keypad.model ? [heardAmong(keypad, keypad.model, credential?.digits, here)] : [];
  });
  return [
    { name: "is already taken", refuses: code => taken.has(code) },
    {
      name: "is an installer code or the beginning of one",
      refuses: code => [...installers].some(installer => installer.startsWith(code) || code.startsWith(installer)),
    },
    { name: "is easily guessed", refuses: code => weakness(code) !== undefined },
    { name: `is fewer than ${places} digits from another`, refuses: code => near.some(isNear => isNear(code)) },
    { name: "begins with a shorter code, or is the beginning of a longer one", refuses: code => heard.some(isLost => isLost(code)) },
  ];
}

function takenAt(keypads: readonly Keypad[]): { readonly taken: ReadonlySet<Digits>; readonly installers: ReadonlySet<Digits> } {
  const taken = new Set<Digits>();
  const installers = new Set<Digits>();
  for (const keypad of keypads) {
    const { model, fitted } = keypad;
    for (const { digits } of liveCodes(keypad)) taken.add(digits);
    // What is at the door now, or was there when it was new: whoever knew it could go on using it.
    for (const code of fittedCodes(keypad)) taken.add(code);
    for (const slot of model?.factory.slots.values() ?? []) if (slot.code !== undefined) taken.add(slot.code);
    const written = keypad.installer?.digits ?? keypad.installer?.held?.credential?.digits;
    for (const code of [written, fitted?.memory?.installer, model?.factory.installer]) if (code !== undefined) installers.add(code);
  }
  return { taken, installers };
}

/** Codes of a keypad that open another door than the new one is for: only those can be near to it. */
function atOtherDoors(keypad: Keypad, credential: Credential | undefined): readonly Digits[] {
  const live = liveCodes(keypad);
  const own = new Set(live.filter(code => code.credential === credential).map(({ opens }) => opens));
  const wired = keypad.relays.filter(({ spare, noCodes }) => !spare && !noCodes);
  // Behind a keypad's only door there is no other one, wherever on it the new code is placed.
  if (own.size === 0 && wired.length === 1 && keypad.relays.length === 1) return [];
  return live.filter(code => code.credential !== credential && (own.size !== 1 || !own.has(code.opens))).map(({ digits }) => digits);
}

/**
 * Whether a code would not be heard at a keypad, or would keep another from being heard: told by the strings that are keyed, `enter` included. Where the keypad acts at
 * once no string may stand in another: at its beginning, or where the last keys count anywhere.
 */
function heardAmong(keypad: Keypad, model: Model, old: Digits | undefined, uses: readonly HeldAt[]): (code: Digits) => boolean {
  const wanted = wantedMemory(keypad, keypad.fitted?.memory ?? model.factory);
  const asInstaller = uses.some(({ as }) => as === "installer");
  const ofOld = (code: Digits | undefined) => old !== undefined && code === old;
  const others = openStrings(model, {
    ...wanted,
    ...(asInstaller ? { installer: "" } : {}),
    slots: new Map([...wanted.slots].filter(([, slot]) => !ofOld(slot.code))),
    allRelay: new Map([...wanted.allRelay].filter(([, { code }]) => !ofOld(code))),
  }).strings.filter(({ stored }) => !(asInstaller && stored.is === "enter"));
  const whole = new Set(others.map(({ symbols }) => keyed(symbols)));
  const atOnce = model.acts === "at once";
  const anywhere = model.listens === "to the last keys";
  const parts = new Set(atOnce ? others.flatMap(({ symbols }) => [...partsOf(symbols, anywhere)]) : []);
  const relays = uses.length > 0 ? [] : [...model.relays.keys()];
  const own = (code: Digits) => [
    ...uses.flatMap(use => codeStrings(model, code, use.as === "slot" ? { relay: use.placement.relay.set } : use.as)),
    ...relays.flatMap(relay => codeStrings(model, code, { relay })),
  ];
  return code =>
    own(code).some(symbols => {
      const string = keyed(symbols);
      if (whole.has(string) || parts.has(string)) return true;
      if (atOnce) for (const part of partsOf(symbols, anywhere)) if (whole.has(part)) return true;
      return false;
    });
}

/** The shorter strings in a string that a keypad which acts at once would act on before its end. */
function* partsOf(symbols: readonly string[], anywhere: boolean): Iterable<string> {
  for (let start = 0; start < (anywhere ? symbols.length : 1); start++) {
    for (let end = start + 1; end <= symbols.length; end++) if (end - start < symbols.length) yield keyed(symbols.slice(start, end));
  }
}

function keyed(symbols: readonly string[]): string {
  return symbols.join(" ");
}
