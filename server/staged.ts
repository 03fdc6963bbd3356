/** Files as they are staged in git: what the next commit would hold, whatever stands on disk. */
import type { FileId } from "../shared/finding.ts";
import { isMullion } from "../shared/site/paths.ts";
import type { ReadText, Shelf } from "./files.ts";
import { fileIdOf, shelf } from "./files.ts";
import { askGit } from "./git.ts";
import type { Blob } from "./git-files.ts";
import { blobOf, isLeftOut, readerOf } from "./git-files.ts";
import { ToolProblem } from "./tool-problem.ts";

export interface Staged {
  /**
   * The files of some paths: each file itself, the `*.mullion` files of each folder; of the working folder without a path.
   * A folder may have none, since deleting the last site is no mistake.
   *
   * @throws ToolProblem where nothing of that name is staged
   */
  readonly asked: (paths: readonly string[]) => readonly FileId[];
  readonly has: (file: FileId) => boolean;
  readonly shelf: Shelf;
}

/** @throws ToolProblem without git and outside a working tree */
export function stagedIn(cwd: string): Staged {
  const outside = "this folder is in no git repository; --staged checks what is staged in one";
  // Asked in the working folder itself: what git tells a hook of its index is relative to that.
  const top = fileIdOf(
    askGit(cwd, ["rev-parse", "--show-toplevel"], outside)
      .toString()
      .replace(/\r?\n$/, ""),
    cwd,
  );
  const listed = askGit(cwd, ["ls-files", "--stage", "-z", "--full-name", "--", ":/"], "git cannot read what is staged", "");
  const blobs = new Map<FileId, Blob>();
  const unmerged = new Set<FileId>();
  for (const line of listed.toString().split("\0")) {
    // Mode, name of the object, stage (0, or 1 to 3 of a merge that is not done), path.
    const [, mode = "", name = "", stage, path = ""] = /^(\d+) ([\da-f]+) (\d)\t(.*)$/s.exec(line) ?? [];
    const file = `${top.replace(/\/$/, "")}/${path}`;
    const blob = blobOf(mode, name);
    if (stage === undefined || !blob) continue;
    if (stage === "0") blobs.set(file, blob);
    else unmerged.add(file);
  }
  const has = (file: FileId) => blobs.has(file) || unmerged.has(file);
  const all = [...new Set([...blobs.keys(), ...unmerged])].filter(isMullion).sort();
  const readBlob = readerOf(cwd, blobs, all, "as they are staged");
  const read = (file: FileId): ReadText =>
    unmerged.has(file) ? { unreadable: "its merge is not finished; settle the conflict and stage the file" } : readBlob(file);

  const asked = (paths: readonly string[]): readonly FileId[] => {
    const files = new Set<FileId>();
    for (const path of paths.length > 0 ? paths : ["."]) {
      const file = fileIdOf(path, cwd);
      const folder = file.endsWith("/") ? file : `${file}/`;
      const mayBeEmpty = path === "." || `${top}/`.startsWith(folder);
      if (has(file)) files.add(file);
      else if (mayBeEmpty || [...blobs.keys(), ...unmerged].some(each => each.startsWith(folder))) {
        for (const each of all) if (each.startsWith(folder) && !isLeftOut(each.slice(folder.length))) files.add(each);
      } else throw new ToolProblem(`nothing is staged as ${path}`);
    }
    return [...files];
  };
  return { asked, has, shelf: shelf(read) };
}
