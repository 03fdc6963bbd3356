/** What a command was asked to look at: paths as typed become files, and what cannot be read is said. */
import type { SourceFile } from "../../shared/finding.ts";
import type { FoundFiles, ReadProblem, Shelf } from "../files.ts";
import { fileIdOf, isFolder, isThere, mullionFilesUnder } from "../files.ts";
import { ToolProblem } from "../tool-problem.ts";
import { shownPath } from "./paths.ts";
import type { Surroundings } from "./surroundings.ts";

/**
 * The files of some paths: each file itself, each folder's `*.mullion` files. Without a path: the working folder.
 *
 * @throws ToolProblem where a path is not there, or a folder has nothing to look at
 */
export function filesAsked(paths: readonly string[], cwd: string): FoundFiles {
  const files = new Set<string>();
  const problems: ReadProblem[] = [];
  for (const path of paths.length > 0 ? paths : ["."]) {
    const file = fileIdOf(path, cwd);
    if (!isFolder(file)) {
      if (!isThere(file)) throw new ToolProblem(`no such file or folder: ${path}`);
      files.add(file);
      continue;
    }
    const found = mullionFilesUnder(file);
    if (found.files.length === 0 && found.problems.length === 0)
      throw new ToolProblem(`no *.mullion files in ${path === "." ? "this folder" : path}`);
    for (const each of found.files) files.add(each);
    problems.push(...found.problems);
  }
  return { files: [...files], problems };
}

/** Says on standard error what could not be read. Returns whether there was anything to say. */
export function sayUnreadable(problems: readonly ReadProblem[], around: Surroundings): boolean {
  for (const { file, reason } of problems) around.err(`mullion: cannot read ${shownPath(file, around.cwd)}: ${reason}\n`);
  return problems.length > 0;
}

/**
 * The one file that was named.
 *
 * @throws ToolProblem where it is not there, is a folder, or cannot be read
 */
export function openNamed({ open, problems }: Shelf, path: string, cwd: string): SourceFile {
  const file = fileIdOf(path, cwd);
  if (!isThere(file)) throw new ToolProblem(`no such file: ${path}`);
  if (isFolder(file)) throw new ToolProblem(`${path} is a folder; name the file itself`);
  const source = open(file);
  if (!source || source.sealed?.unreadable) throw new ToolProblem(`cannot read ${path}: ${problems.at(-1)?.reason ?? "it went away"}`);
  return source;
}
