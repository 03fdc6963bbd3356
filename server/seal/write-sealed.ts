/** Writes a sealed file and the names beside it; leaves both as they are where nothing changed. */
import { readFileSync } from "node:fs";
import { parse } from "../../grammar/parse.ts";
import type { FileId } from "../../shared/finding.ts";
import { isSealed, namesFile, printNames, readNames, recipientsFile } from "../../shared/sealed/names.ts";
import { baseName } from "../../shared/site/paths.ts";
import { shownPath } from "../cli/paths.ts";
import { isThere, readText } from "../files.ts";
import { ToolProblem } from "../tool-problem.ts";
import { anyPassphrase, passphraseOf } from "../unsealing.ts";
import { writeFileWhole } from "../write-file.ts";
import type { Readers } from "./age.ts";
import { age } from "./load.ts";
import { listFor, readersDigest, recipientsIn } from "./recipients.ts";

/**
 * Writes a text of a site: as it is, or sealed where its file is. `others` are the site's files, whose recipients a new record is sealed for.
 *
 * @throws ToolProblem where nobody is named to seal for, or it cannot be written; nothing is written then
 */
export async function writeText(file: FileId, text: string, others: readonly FileId[], cwd: string): Promise<void> {
  if (!isSealed(file)) return writeFileWhole(file, text, shownPath(file, cwd));
  const passphrase = isThere(file) ? passphraseOf(readFileSync(file)) : undefined;
  const readers = passphrase === undefined ? await readersOf(file, others, cwd) : { passphrase };
  await writeSealed(file, text, readers, cwd);
}

/**
 * For whom a file is sealed: those of its list, or of another sealed file of the site's; with the passphrase that opened the site
 * where there is no list.
 *
 * @throws ToolProblem where there is neither
 */
export async function readersOf(sealed: FileId, others: readonly FileId[], cwd: string): Promise<Readers> {
  const list = listFor(sealed, others.filter(isSealed), isThere);
  if (list !== undefined) return { recipients: await recipientsIn(list, shownPath(list, cwd)) };
  const passphrase = anyPassphrase();
  if (passphrase !== undefined) return { passphrase };
  throw new ToolProblem(
    `nothing says for whom ${baseName(sealed)} is sealed: write recipients into ${shownPath(recipientsFile(sealed), cwd)}, one a line (mullion keys new makes an identity and says its recipient)`,
  );
}

/** Seals and writes. The names come last: names that do not fit their file are told by its size. */
export async function writeSealed(sealed: FileId, text: string, readers: Readers, cwd: string): Promise<void> {
  const { sealText } = await age();
  const bytes = await sealText(text, readers);
  writeFileWhole(sealed, bytes, shownPath(sealed, cwd));
  const names = printNames(sealed, parse(text).tree, { bytes: bytes.length, readers: saidOf(readers) });
  writeFileWhole(namesFile(sealed), names, shownPath(namesFile(sealed), cwd));
}

/** Whether a sealed file already is what sealing this text for these readers would make of it, and so do its names say. */
export function isAsSealed(
  sealed: FileId,
  before: { readonly text: string; readonly bytes: number },
  text: string,
  readers: Readers,
): boolean {
  const names = readText(namesFile(sealed));
  if (before.text !== text || !("text" in names)) return false;
  const said = { bytes: before.bytes, readers: saidOf(readers) };
  return names.text === printNames(sealed, parse(text).tree, said) && readNames(names.text).sealedFor?.readers === said.readers;
}

/** As a names file says it. */
export function saidOf(readers: Readers): string {
  return "passphrase" in readers ? "passphrase" : readersDigest(readers.recipients);
}
