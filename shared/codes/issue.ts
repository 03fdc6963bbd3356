/** A new code for a holder: drawn within every rule of every keypad where it is used, and the one edit that writes it. */
import type { Edit } from "../finding.ts";
import { codeLengthsInForce, installerLengthsInForce } from "../keypad/lengths.ts";
import type { Digits } from "../keypad/memory.ts";
import { wantedMemory } from "../plan/wanted.ts";
import { visible } from "../sheet/visible.ts";
import type { Credential, Holder, Keypad, Site } from "../site/site.ts";
import { heldEverywhere, usesOf } from "../site/where.ts";
import { allowedRules } from "./allowed.ts";
import type { RandomBytes } from "./draw.ts";
import { drawCode } from "./draw.ts";
import { placeOfCode, placeOfNewCode, writtenCode } from "./written-at.ts";

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
  if (name === "code" || name === "tag" || (name !== undefined && !/^[A-Za-z][A-Za-z0-9_-]*$/.test(name)))
    return {
      not: `${visible(name)} cannot be the name of a code: a name is letters, digits, _ and -, begins with a letter, and is neither code nor tag`,
    };
  const place = credential ? placeOfCode(credential) : placeOfNewCode(site, holder, name);
  if (!place) return { not: `the text of ${holder.label} is still to be completed` };
  const keypads = keypadsOf(site, holder, credential);
  const lengths = lengthsFor(site, holder, credential, keypads);
  if (typeof lengths === "string") return { not: lengths };
  const old = credential?.digits?.length;
  const digits = old !== undefined && lengths.includes(old) ? old : lengths.at(-1);
  if (digits === undefined) return { not: `no keypad says how long the code of ${holder.label} is to be` };
  const drawn = drawCode(digits, allowedRules(site, credential, keypads), random);
  if ("none" in drawn) {
    const none = drawn.none === "left" ? "is left for" : "came up in a million draws for";
    return { not: `no code of ${digits} digits ${none} ${holder.label}: each ${drawn.because.join(", or ")}` };
  }
  const edit = writtenCode(site, holder, name, place, drawn.code);
  return edit ? { code: drawn.code, edit } : { not: `the text of ${holder.label} is still to be completed` };
}

/** Where the code is used; for one that is used nowhere yet, where its holder is; for a holder who is on none yet, every keypad: it may come to any. */
function keypadsOf(site: Site, holder: Holder, credential: Credential | undefined): readonly Keypad[] {
  const uses = credential ? usesOf(site, credential) : [];
  const all = uses.length > 0 ? uses : heldEverywhere(site).filter(({ use }) => use.holder === holder);
  return all.length > 0 ? [...new Set(all.map(({ keypad }) => keypad))] : [...site.keypads.values()];
}

/** Lengths that every keypad takes, ascending; words where there is none in common. */
function lengthsFor(
  site: Site,
  holder: Holder,
  credential: Credential | undefined,
  keypads: readonly Keypad[],
): readonly number[] | string {
  const placed = heldEverywhere(site).some(({ use }) => use.holder === holder);
  let common: readonly number[] | undefined;
  for (const keypad of keypads) {
    const { model } = keypad;
    if (!model) continue;
    const force = wantedMemory(keypad, keypad.fitted?.memory ?? model.factory);
    const uses = credential ? usesOf(site, credential).filter(use => use.keypad === keypad) : [];
    // An installer code's own length may change; what hangs on it is told by the checks.
    const lengths = uses.some(use => use.as === "installer") ? installerLengthsInForce(model, force) : codeLengthsInForce(model, force);
    common = common === undefined ? lengths : common.filter(length => lengths.includes(length));
    if (common.length === 0) {
      const all = keypads.map(one => one.label).join(", ");
      return placed
        ? `no length of code fits every keypad where it is used (${all})`
        : `${holder.label} is on no keypad yet, and no length of code fits them all (${all}): write its entry first`;
    }
  }
  return common ?? [];
}
