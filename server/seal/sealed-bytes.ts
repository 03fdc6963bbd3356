/** A sealed file that was named: read as bytes, opened with the keys that were given or are asked for. */
import { readFileSync, statSync } from "node:fs";
import type { FileId } from "../../shared/finding.ts";
import { isSealed, namesFile } from "../../shared/sealed/names.ts";
import { shownPath } from "../cli/paths.ts";
import type { Surroundings } from "../cli/surroundings.ts";
import { fileIdOf, isFolder, isThere, largestFile, readText } from "../files.ts";
import { systemReason, ToolProblem } from "../tool-problem.ts";
import { metAs, whyShut } from "../unsealing.ts";
import type { Keys } from "./age.ts";
import { whyNotSealed } from "./beginnings.ts";
import type { KeySource } from "./identities.ts";
import { asked, keysAtHand } from "./identities.ts";
import { isUnderPassphrase, openMet } from "./open.ts";

export interface OpenedFile {
  readonly file: FileId;
  readonly bytes: Uint8Array;
  readonly text: string;
  /** The one that opened it. */
  readonly passphrase?: string;
}

/** What opens the files that a command names: fetched when it is needed, each passphrase asked for once. */
export interface KeyRing {
  readonly keysFor: (bytes: Uint8Array, shown: string) => Promise<Keys>;
  /** An identity or a passphrase was given, or is named by the environment. */
  readonly given: boolean;
}

/** @param identity what `--identity` says */
export function keyRing(identity: string | undefined, around: Surroundings): KeyRing {
  const named = identity ?? around.identity;
  const source: KeySource = { cwd: around.cwd, identity: named, askHidden: around.askHidden };
  let plain: Promise<Keys> | undefined;
  let typed: Keys | undefined;
  return {
    given: named !== undefined,
    keysFor: async (bytes, shown) => {
      if (isUnderPassphrase(bytes) && named !== "-") {
        typed ??= { identities: [], passphrases: [await asked(source, `Passphrase of ${shown}: `, `${shown} opens with a passphrase`)] };
        return typed;
      }
      plain ??= keysAtHand(named === undefined ? { ...source, identity: "-" } : source);
      return plain;
    },
  };
}

/** @throws ToolProblem where there is no such file, or it cannot be read */
export function readSealed(path: string, cwd: string): { readonly file: FileId; readonly bytes: Uint8Array } {
  const file = fileIdOf(path, cwd);
  if (!isThere(file)) throw new ToolProblem(`no such file: ${path}`);
  if (isFolder(file)) throw new ToolProblem(`${path} is a folder; name the file itself`);
  try {
    if (statSync(file).size > largestFile) throw new ToolProblem(`${path} is too large to be a sealed text`);
    return { file, bytes: readFileSync(file) };
  } catch (error) {
    throw error instanceof ToolProblem ? error : new ToolProblem(`cannot read ${path}: ${systemReason(error)}`);
  }
}

/** @throws ToolProblem with its own words for a wrong identity, a wrong passphrase, a damaged file and one that is cut short */
export async function openSealed(file: FileId, bytes: Uint8Array, ring: KeyRing, cwd: string): Promise<OpenedFile> {
  const shown = shownPath(file, cwd);
  // Before anybody is asked for an identity.
  const not = whyNotSealed(bytes);
  if (not !== undefined) throw new ToolProblem(`cannot open ${shown}: ${not}`);
  const names = isSealed(file) ? readText(namesFile(file)) : undefined;
  const met = metAs(file, bytes, names && "text" in names ? names.text : undefined);
  const result = await openMet(met, await ring.keysFor(bytes, shown));
  if ("text" in result) return { file, bytes, ...result };
  throw new ToolProblem(`cannot open ${shown}: ${whyShut(result)}`);
}
