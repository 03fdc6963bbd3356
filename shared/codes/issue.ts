/** A new code for a holder: drawn within every rule of every keypad where it is used, and the one edit that writes it. */
import type { Edit, Place } from "../finding.ts";
import { codeLengthsInForce, installerLengthsInForce } from "../keypad/lengths.ts";
import type { Digits } from "../keypad/memory.ts";
import type { Credential, Holder, Keypad, Site } from "../site/site.ts";
import { heldEverywhere, usesOf } from "../site/where.ts";
import type { DrawRule, RandomBytes } from "./draw.ts";
import { drawCode } from "./draw.ts";
import { fittedCodes, liveCodes } from "./live.ts";
import { placesApart } from "./near.ts";
import { weakness } from "./weak.ts";

/** What is said where no code can be drawn; in words, without a code. */
export interface NotDrawn {
  readonly not: string;
}

export interface Issued {
  readonly code: Digits;
  /** The new code in the text; nothing else changes. */
  readonly edit: Edit;
}

/**
 * Draws a code for a credential that the text has, or a first unnamed code for a holder that has none.
 *
 * @param name the credential's name; undefined for the unnamed code.
 */
export function issueCode(site: Site, holder: Holder, name: string | undefined, random: RandomBytes): Issued | NotDrawn {
  const credential = holder.credentials.find(one => one.kind === "code" && one.name === name);
  if (!credential && name !== undefined && holder.credentials.some(one => one.name === name))
    return { not: `${name} of ${holder.label} is a tag` };
  const place = credential ? placeOf(credential) : newCodeAt(holder, name);
  if (!place) return { not: `the text of ${holder.label} is still to be completed` };
  const keypads = keypadsOf(site, holder, credential);
  const lengths = lengthsFor(site, credential, keypads);
  if (typeof lengths === "string") return { not: lengths };
  const old = credential?.digits?.length;
  const digits = old !== undefined && lengths.includes(old) ? old : lengths.at(-1);
  if (digits === undefined) return { not: `${holder.label} is on no keypad, so nothing says how long the code is to be` };
  const drawn = drawCode(digits, rulesFor(site, credential, keypads), random);
  if ("none" in drawn) {
    return {
      not: `no code of ${digits} digits is left for ${holder.label}: each ${drawn.because.length > 0 ? drawn.because.join(", or ") : "is refused"}`,
    };
  }
  return { code: drawn.code, edit: { ...place.at, text: `${place.before}${drawn.code}` } };
}

interface WrittenAt {
  readonly at: Place;
  /** What goes before the digits in the edit. */
  readonly before: string;
}

function placeOf(credential: Credential): WrittenAt | undefined {
  const { node, file } = credential;
  if (node.kind !== "code") return undefined;
  if (node.digits) return { at: { file, start: node.digits.start, end: node.digits.end }, before: "" };
  const end = node.name?.end ?? node.keyword.end;
  return { at: { file, start: end, end }, before: " " };
}

function newCodeAt(holder: Holder, name: string | undefined): WrittenAt | undefined {
  const { node, file } = holder;
  const end = node.facts.at(-1)?.end ?? node.label?.end;
  if (end === undefined) return undefined;
  const line = node.facts.length > 0 ? "\n  code " : " code ";
  return { at: { file, start: end, end }, before: `${line}${name === undefined ? "" : `${name} `}` };
}

/** Where the code is used; for one that is used nowhere yet, where its holder is. */
function keypadsOf(site: Site, holder: Holder, credential: Credential | undefined): readonly Keypad[] {
  const uses = credential ? usesOf(site, credential) : [];
  const all = uses.length > 0 ? uses : heldEverywhere(site).filter(({ use }) => use.holder === holder);
  return [...new Set(all.map(({ keypad }) => keypad))];
}

/** Lengths that every keypad takes, ascending; words where there is none in common. */
function lengthsFor(site: Site, credential: Credential | undefined, keypads: readonly Keypad[]): readonly number[] | string {
  let common: readonly number[] | undefined;
  for (const keypad of keypads) {
    const { model } = keypad;
    if (!model) continue;
    const force = {
      ...(keypad.installer?.digits === undefined ? {} : { installer: keypad.installer.digits }),
      ...(keypad.codeLength === undefined ? {} : { codeLength: keypad.codeLength }),
    };
    const uses = credential ? usesOf(site, credential).filter(use => use.keypad === keypad) : [];
    // An installer code's own length may change; what hangs on it is told by the checks.
    const lengths = uses.some(use => use.as === "installer") ? installerLengthsInForce(model, force) : codeLengthsInForce(model, force);
    common = common === undefined ? lengths : common.filter(length => lengths.includes(length));
    if (common.length === 0) return `no length of code fits every keypad where it is used (${keypads.map(one => one.label).join(", ")})`;
  }
  if (common) return common;
  const all = [...site.keypads.values()].flatMap(({ model }) => (model ? model.codeLengths : []));
  return all.length > 0 ? [...new Set(all)].sort((a, b) => a - b) : [];
}

function rulesFor(site: Site, credential: Credential | undefined, keypads: readonly Keypad[]): readonly DrawRule[] {
  const taken = new Set<Digits>();
  const openers: { readonly digits: Digits; readonly keypad: Keypad }[] = [];
  const installers = new Set<Digits>();
  for (const keypad of keypads) {
    for (const live of liveCodes(keypad)) {
      taken.add(live.digits);
      if (live.credential !== credential) openers.push({ digits: live.digits, keypad });
    }
    // What is at the door now, or was there when it was new: whoever knew it could go on using it.
    for (const code of fittedCodes(keypad)) taken.add(code);
    for (const slot of keypad.model?.factory.slots.values() ?? []) if (slot.code !== undefined) taken.add(slot.code);
    for (const code of [keypad.installer?.digits, keypad.fitted?.memory?.installer, keypad.model?.factory.installer]) {
      if (code !== undefined) installers.add(code);
    }
  }
  const { places } = site.policy.nearCodes;
  const atOnce = keypads.some(keypad => keypad.model?.acts === "at once");
  return [
    { name: "is already taken", refuses: code => taken.has(code) },
    {
      name: "is an installer code or the beginning of one",
      refuses: code => [...installers].some(installer => installer.startsWith(code) || code.startsWith(installer)),
    },
    { name: "is easily guessed", refuses: code => weakness(code) !== undefined },
    {
      name: `is fewer than ${places} digits from another`,
      refuses: code => openers.some(other => placesApart(code, other.digits) < places),
    },
    {
      name: "begins with a shorter code, or is the beginning of a longer one",
      refuses: code =>
        atOnce && openers.some(other => other.digits !== code && (other.digits.startsWith(code) || code.startsWith(other.digits))),
    },
  ];
}
