/** Files as they are staged in git: what the next commit would hold, whatever stands on disk. */
import { posix } from "node:path";
import type { FileId } from "../shared/finding.ts";
import type { ReadText, Shelf } from "./files.ts";
import { fileIdOf, shelf, textIn } from "./files.ts";
import { askGit } from "./git.ts";
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

interface Blob {
  readonly name: string;
  readonly isLink: boolean;
}

/** A link is followed this often; further ones lead round in a loop. */
const mostLinks = 8;

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
    if (stage === undefined || mode === submodule) continue;
    if (stage === "0") blobs.set(file, { name, isLink: mode === link });
    else unmerged.add(file);
  }
  const has = (file: FileId) => blobs.has(file) || unmerged.has(file);
  const all = [...new Set([...blobs.keys(), ...unmerged])].filter(file => file.endsWith(".mullion")).sort();
  const bytesOf = reader(cwd, [...new Set(all.flatMap(file => blobs.get(file)?.name ?? []))]);

  const read = (file: FileId, links = 0): ReadText => {
    if (unmerged.has(file)) return { unreadable: "its merge is not finished; settle the conflict and stage the file" };
    const blob = blobs.get(file);
    if (!blob) return links === 0 ? { absent: true } : { unreadable: "it is a link to what is not staged" };
    if (!blob.isLink) return textIn(bytesOf(blob.name));
    if (links === mostLinks) return { unreadable: "its links lead round in a loop" };
    return read(posix.resolve(posix.dirname(file), bytesOf(blob.name).toString()), links + 1);
  };

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
  return { asked, has, shelf: shelf(file => read(file)) };
}

const link = "120000";
const submodule = "160000";

/** The same folders as on disk: hidden ones, and other people's packages. */
function isLeftOut(path: string): boolean {
  return path
    .split("/")
    .slice(0, -1)
    .some(folder => folder.startsWith(".") || folder === "node_modules");
}

/** Reads objects by name: those that are known beforehand in one go, any other when it is asked for. */
function reader(cwd: string, names: readonly string[]): (name: string) => Buffer {
  const known = new Map<string, Buffer>();
  const load = (wanted: readonly string[]): void => {
    if (wanted.length === 0) return;
    const cannot = "git cannot read what is staged";
    const said = askGit(cwd, ["cat-file", "--batch"], cannot, `${wanted.join("\n")}\n`);
    let at = 0;
    // `NAME blob SIZE`, a line's end, the bytes, a line's end.
    for (const name of wanted) {
      const end = said.indexOf(0x0a, at);
      const size = /^[\da-f]+ blob (\d+)$/.exec(said.toString("latin1", at, end))?.[1];
      if (size === undefined) throw new ToolProblem(cannot);
      at = end + 1 + Number(size) + 1;
      known.set(name, said.subarray(end + 1, at - 1));
    }
  };
  load(names);
  return name => {
    if (!known.has(name)) load([name]);
    const bytes = known.get(name);
    if (!bytes) throw new ToolProblem("git cannot read what is staged");
    return bytes;
  };
}
