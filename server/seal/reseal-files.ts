/** Seals files anew for those whom their lists name now. Opens all of them before it writes the first. */
import type { FileId } from "../../shared/finding.ts";
import { isSealed, namesFile, readNames, recipientsFile } from "../../shared/sealed/names.ts";
import { loadSite } from "../../shared/site/load.ts";
import { filesAsked } from "../cli/asked.ts";
import type { ExitStatus, OptionValues } from "../cli/command.ts";
import { textOf } from "../cli/command.ts";
import { shownPath } from "../cli/paths.ts";
import type { Surroundings } from "../cli/surroundings.ts";
import { readText, shelf } from "../files.ts";
import { ToolProblem } from "../tool-problem.ts";
import type { Readers } from "./age.ts";
import { forWhom, newPassphrase } from "./seal-file.ts";
import type { OpenedFile } from "./sealed-bytes.ts";
import { keyRing, openSealed, readSealed } from "./sealed-bytes.ts";
import { siteSealedFiles } from "./site-files.ts";
import { isAsSealed, readersOf, saidOf, writeSealed } from "./write-sealed.ts";

/** @throws ToolProblem where one does not open, or nobody is named to seal it for; nothing is written then */
export async function resealFiles(paths: readonly string[], options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const { cwd } = around;
  const files = sealedAmong(filesAsked(paths, cwd).files);
  if (files.length === 0) throw new ToolProblem(`there is no sealed file in ${paths.length === 0 ? "this folder" : paths.join(", ")}`);
  const ring = keyRing(textOf(options, "identity"), around);
  const opened: { readonly each: OpenedFile; readonly readers: Readers }[] = [];
  const fresh =
    options.passphrase === true
      ? { passphrase: await newPassphrase(files.map(file => shownPath(file, cwd)).join(", "), around) }
      : undefined;
  for (const file of files) {
    const { bytes } = readSealed(file, cwd);
    const each = await openSealed(file, bytes, ring, cwd);
    opened.push({ each, readers: fresh ?? (await readersNow(each, cwd)) });
  }
  let changed = false;
  for (const { each, readers } of opened) {
    const shown = shownPath(each.file, cwd);
    if (isSameFor(each, readers)) around.out(`${shown}: as it was\n`);
    else {
      changed ||= wasForOthers(each.file, readers);
      await writeSealed(each.file, each.text, readers, cwd);
      around.out(`${shown}: ${forWhom(readers)}\n`);
    }
  }
  if (changed)
    around.out(
      "Whoever is no longer named still opens what was committed before: change the codes that they must not know (mullion issue).\n",
    );
  return 0;
}

/** Sealed files that were named, and those of the sites that were. */
function sealedAmong(files: readonly FileId[]): readonly FileId[] {
  const found = new Set<FileId>();
  const { open } = shelf();
  for (const file of files) {
    if (isSealed(file)) found.add(file);
    else for (const { sealed } of loadSite(file, open).files) if (sealed) found.add(sealed.file);
  }
  return [...found];
}

/** A file under a passphrase goes over to recipients as soon as a list of its own names some. */
async function readersNow({ file, passphrase }: OpenedFile, cwd: string): Promise<Readers> {
  try {
    return await readersOf(file, siteSealedFiles(file), cwd);
  } catch (error) {
    if (passphrase === undefined || !isMissingList(file)) throw error;
    return { passphrase };
  }
}

function isMissingList(file: FileId): boolean {
  return "absent" in readText(recipientsFile(file));
}

function isSameFor(each: OpenedFile, readers: Readers): boolean {
  // Another passphrase is another lock, and nobody can tell from outside.
  if ("passphrase" in readers && readers.passphrase !== each.passphrase) return false;
  if ("recipients" in readers && each.passphrase !== undefined) return false;
  return isAsSealed(each.file, { text: each.text, bytes: each.bytes.length }, each.text, readers);
}

/** It was sealed for somebody else before, as its names say. */
function wasForOthers(file: FileId, readers: Readers): boolean {
  const names = readText(namesFile(file));
  const before = "text" in names ? readNames(names.text).sealedFor?.readers : undefined;
  return before !== undefined && before !== saidOf(readers);
}
