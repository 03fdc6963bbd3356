/** A site for planning: loaded from its file, with the fitted record beside it or with another one in its place. */
import type { FileId, SourceFile } from "../../../shared/finding.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { fittedCompanion, isFittedRecord } from "../../../shared/site/paths.ts";
import type { Site } from "../../../shared/site/site.ts";
import type { ReadProblem } from "../../files.ts";
import { shelf } from "../../files.ts";
import { ToolProblem } from "../../tool-problem.ts";
import { openNamed } from "../asked.ts";

export interface OpenedSite {
  readonly site: Site;
  /** Files that are there and could not be read. */
  readonly problems: readonly ReadProblem[];
  /** The file that a person knows a file of the site by: the other record stands under the name of the one it replaces. */
  readonly renamed: (file: FileId) => FileId;
}

/**
 * @param from a fitted record to read in place of those beside the site; `factory` and `reset` are no files
 * @throws ToolProblem where a file that was named cannot be read
 */
export function openSite(path: string, from: string | undefined, cwd: string): OpenedSite {
  const files = shelf();
  const { open, problems } = files;
  const root = openNamed(files, path, cwd).file;
  if (from === undefined || from === "factory" || from === "reset") return { site: loadSite(root, open), problems, renamed: file => file };

  const record = openNamed(files, from, cwd);
  if (!isRecord(record)) throw new ToolProblem(`${from} is a text and no fitted record; an earlier record is asked for`);
  // Without a word about any keypad all of them would be taken for new.
  if (!record.tree.declarations.some(({ kind }) => kind === "fitted")) throw new ToolProblem(`${from} says of no keypad what it holds`);
  const place = fittedCompanion(root);
  if (place === undefined) throw new ToolProblem(`${path} is a fitted record; name the site's file`);
  const site = loadSite(root, file => {
    if (file === place) return { ...record, file: place };
    return isFittedRecord(file) ? undefined : open(file);
  });
  return { site, problems, renamed: file => (file === place ? record.file : file) };
}

/** What stands in it is what keypads are known to hold, and no site, keypad or holder. */
export function isRecord({ tree }: SourceFile): boolean {
  return tree.declarations.every(({ kind }) => kind === "fitted" || kind === "model" || kind === "use");
}
