/** How a path is shown: to a person from the working folder, to a program from the repository. */
import { existsSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import type { FileId } from "../../shared/finding.ts";

/** The path as a person would type it here: relative, unless the absolute one is shorter. */
export function shownPath(file: FileId, cwd: string): string {
  const fromHere = slashed(relative(cwd, file)) || ".";
  return fromHere.length <= file.length ? fromHere : file;
}

/**
 * Paths for machine formats, with forward slashes: from the repository of the working folder, else from the file's own, else
 * from the working folder. Found by looking for `.git` upward, so no git is needed.
 */
export function repositoryPaths(cwd: string): (file: FileId) => string {
  const here = repositoryOf(cwd);
  const known = new Map<string, string | undefined>();
  return file => {
    if (here !== undefined && isInside(file, here)) return slashed(relative(here, file));
    const folder = dirname(file);
    if (!known.has(folder)) known.set(folder, repositoryOf(folder));
    return slashed(relative(known.get(folder) ?? cwd, file));
  };
}

/** The nearest folder upward that has a `.git` (a folder, or a file in a linked working tree); undefined outside a repository. */
export function repositoryOf(folder: string): string | undefined {
  for (let at = folder; ; at = dirname(at)) {
    if (existsSync(join(at, ".git"))) return at;
    if (dirname(at) === at) return undefined;
  }
}

function isInside(file: string, folder: string): boolean {
  const path = relative(folder, file);
  return path !== ".." && !path.startsWith(`..${sep}`) && !/^[A-Za-z]:/.test(path);
}

function slashed(path: string): string {
  return sep === "/" ? path : path.replaceAll(sep, "/");
}
