/** Files as they were at an earlier git revision. */
import { dirname } from "node:path";
import type { FileId } from "../shared/finding.ts";
import { isMullion } from "../shared/site/paths.ts";
import type { Shelf } from "./files.ts";
import { fileIdOf, realFile, shelf } from "./files.ts";
import { askGit, thereAbove } from "./git.ts";
import type { Blob } from "./git-files.ts";
import { blobOf, isLeftOut, readerOf } from "./git-files.ts";

export interface Revision {
  readonly shelf: Shelf;
  /** The file was there then. */
  readonly has: (file: FileId) => boolean;
  /** Every `*.mullion` and `*.mullion.age` file that was there under a folder then, sorted by path. */
  readonly under: (folder: FileId) => readonly FileId[];
}

/**
 * @param beside a file or folder of the working tree, by which the repository is found
 * @throws ToolProblem without git, outside a repository, and for a revision that it does not have; so does reading, where git
 * cannot give a file that was there
 */
export function revisionAt(beside: FileId, revision: string): Revision {
  const folder = thereAbove(dirname(beside));
  const answered = (words: readonly string[], otherwise: string) =>
    askGit(folder, words, otherwise)
      .toString()
      .replace(/\r?\n$/, "");
  const top = fileIdOf(answered(["rev-parse", "--show-toplevel"], `${beside} is in no git repository`), folder).replace(/\/$/, "");
  // Told apart from an option, and as a commit: `REV^{commit}` fails for anything else.
  const named = ["rev-parse", "--verify", "--quiet", "--end-of-options", `${revision}^{commit}`];
  const commit = answered(named, `git knows no revision ${revision}`);
  const where = `at ${revision}`;
  const listed = askGit(folder, ["ls-tree", "-r", "-z", "--full-tree", commit], `git cannot read the files ${where}`, "");
  const blobs = new Map<FileId, Blob>();
  for (const line of listed.toString().split("\0")) {
    const [, mode, name, path] = /^(\d+) \w+ ([\da-f]+)\t(.*)$/s.exec(line) ?? [];
    const blob = mode === undefined || name === undefined ? undefined : blobOf(mode, name);
    if (blob) blobs.set(`${top}/${path}`, blob);
  }
  const all = [...blobs.keys()].filter(isMullion).sort();
  return {
    shelf: shelf(readerOf(folder, blobs, all, where)),
    has: file => blobs.has(file),
    under: asked => {
      const beginning = asked.endsWith("/") ? asked : `${asked}/`;
      return all.filter(file => file.startsWith(beginning) && !isLeftOut(file.slice(beginning.length)));
    },
  };
}

/** A path with its links followed, as git names it, whether or not there is anything now. */
export function realPath(path: FileId): FileId {
  const real = realFile(path);
  if (real !== path) return fileIdOf(real, "/");
  const folder = dirname(path);
  return folder === path ? path : `${realPath(folder).replace(/\/$/, "")}/${path.slice(path.lastIndexOf("/") + 1)}`;
}
