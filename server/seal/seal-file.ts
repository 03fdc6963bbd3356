/** Seals one plain file: for the recipients beside it, or with a passphrase. */
import { rmSync } from "node:fs";
import { dirname } from "node:path";
import { parse } from "../../grammar/parse.ts";
import type { FileId } from "../../shared/finding.ts";
import { must } from "../../shared/must.ts";
import { printNames, recipientsFile } from "../../shared/sealed/names.ts";
import { openNamed } from "../cli/asked.ts";
import type { ExitStatus, OptionValues } from "../cli/command.ts";
import { textOf } from "../cli/command.ts";
import { repositoryOf, shownPath } from "../cli/paths.ts";
import type { Surroundings } from "../cli/surroundings.ts";
import { isThere, shelf } from "../files.ts";
import { systemReason, ToolProblem } from "../tool-problem.ts";
import type { Readers } from "./age.ts";
import { asked } from "./identities.ts";
import { age } from "./load.ts";
import { isUnderPassphrase, openMet } from "./open.ts";
import { keyRing, readSealed } from "./sealed-bytes.ts";
import { siteSealedFiles } from "./site-files.ts";
import { isAsSealed, readersOf, writeSealed } from "./write-sealed.ts";

/** @throws ToolProblem where the file or its recipients cannot be used; nothing is written then */
export async function sealFile(path: string, options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  if (path.endsWith(".age")) throw new ToolProblem(`${path} is sealed already; mullion reseal seals it anew`);
  const { file, text } = openNamed(shelf(), path, around.cwd);
  const sealed = `${file}.age`;
  const shown = shownPath(sealed, around.cwd);
  if (options.dryRun === true) {
    const names = printNames(sealed, parse(text).tree, undefined).split("\n").slice(1).join("\n");
    around.out(`${shown} would hold, by name:\n${names}nothing was written\n`);
    return 0;
  }
  const readers =
    options.passphrase === true
      ? { passphrase: await newPassphrase(shown, around) }
      : await readersOf(sealed, siteSealedFiles(file), around.cwd);
  if (await isUnchanged(sealed, text, readers, textOf(options, "identity"), around)) around.out(`${shown}: as it was\n`);
  else {
    await writeSealed(sealed, text, readers, around.cwd);
    around.out(`${shown}: ${forWhom(readers)}\n`);
    await readBack(sealed, text, readers, textOf(options, "identity"), around);
  }
  const plain = shownPath(file, around.cwd);
  if (options.remove === true) {
    removePlain(file, plain);
    around.out(`${plain} is removed${repositoryOf(dirname(file)) ? "; git's history keeps what was committed of it" : ""}\n`);
  } else
    around.err(
      `mullion: ${plain} still stands there in plain text; remove it once you have seen that the sealed file opens (--remove does)\n`,
    );
  return 0;
}

export function forWhom(readers: Readers): string {
  if ("passphrase" in readers) return "sealed with a passphrase";
  const count = readers.recipients.length;
  return `sealed for ${count === 1 ? "one recipient" : `${count} recipients`}`;
}

/** @throws ToolProblem where the file cannot be removed; what was sealed stays sealed */
export function removePlain(file: FileId, shown: string): void {
  try {
    rmSync(file);
  } catch (error) {
    throw new ToolProblem(`cannot remove ${shown}: ${systemReason(error)}; it still stands there in plain text`);
  }
}

/** Asked for twice, since a slip would lock everybody out. */
export async function newPassphrase(shown: string, around: Surroundings): Promise<string> {
  const source = { cwd: around.cwd, askHidden: around.askHidden };
  const why = `${shown} is to be sealed with a passphrase`;
  const first = await asked(source, `New passphrase for ${shown}: `, why);
  const again = await asked(source, "The same again: ", why);
  if (first !== again) throw new ToolProblem("the two passphrases are not the same; nothing is written");
  return first;
}

/** What is there opens with what is at hand, and holds this text for these readers. */
async function isUnchanged(
  sealed: FileId,
  text: string,
  readers: Readers,
  identity: string | undefined,
  around: Surroundings,
): Promise<boolean> {
  if (!isThere(sealed)) return false;
  const { bytes } = readSealed(sealed, around.cwd);
  const ring = keyRing(identity, around);
  const keys =
    "passphrase" in readers
      ? { identities: [], passphrases: [readers.passphrase] }
      : ring.given && !isUnderPassphrase(bytes)
        ? await ring.keysFor(bytes, shownPath(sealed, around.cwd))
        : undefined;
  const before = keys && (await openMet({ file: sealed, bytes }, keys));
  return before !== undefined && "text" in before && isAsSealed(sealed, { text: before.text, bytes: bytes.length }, text, readers);
}

/** Whoever seals a file and cannot open it is told so, while the plain text is still there. */
async function readBack(sealed: FileId, text: string, readers: Readers, identity: string | undefined, around: Surroundings): Promise<void> {
  const { bytes } = readSealed(sealed, around.cwd);
  const shown = shownPath(sealed, around.cwd);
  const { recipientOf } = await age();
  const ring = keyRing(identity, around);
  // A passphrase was typed twice, and trying it again takes a second.
  if ("passphrase" in readers || !ring.given) return;
  const keys = await ring.keysFor(bytes, shown);
  const own = await Promise.all(keys.identities.map(recipientOf));
  if (!own.some(recipient => recipient !== undefined && readers.recipients.includes(recipient))) {
    around.err(
      `mullion: the identity at hand is not among the recipients in ${shownPath(recipientsFile(sealed), around.cwd)}: it does not open ${shown}\n`,
    );
    return;
  }
  const back = await openMet({ file: sealed, bytes }, keys);
  must("text" in back && back.text === text, "what was sealed opens again");
}
