/** Files as git keeps them, of what is staged or of a commit: links are followed, and what is read beforehand is read in one go. */
import { posix } from "node:path";
import type { FileId } from "../shared/finding.ts";
import type { ReadText } from "./files.ts";
import { contentOf } from "./files.ts";
import { askGit } from "./git.ts";
import { ToolProblem } from "./tool-problem.ts";

export interface Blob {
  /** Of the object. */
  readonly name: string;
  readonly isLink: boolean;
}

/** A line of `ls-files --stage` or `ls-tree`: mode and name of the object. Undefined for what is no file: a submodule. */
export function blobOf(mode: string, name: string): Blob | undefined {
  return mode === submodule ? undefined : { name, isLink: mode === link };
}

const link = "120000";
const submodule = "160000";

/** A link is followed this often; further ones lead round in a loop. */
const mostLinks = 8;

/**
 * Reads files by path. A file that is not among `blobs` is absent; where git cannot give one that is, that is no absence.
 *
 * @param beforehand files that are read in one go, most likely all that will be asked for
 * @param where in words, for what is wrong: "at HEAD~2"
 * @returns what reads a file. @throws ToolProblem (and so does what is returned) where git cannot give the objects
 */
export function readerOf(
  folder: string,
  blobs: ReadonlyMap<FileId, Blob>,
  beforehand: readonly FileId[],
  where: string,
): (file: FileId) => ReadText {
  const bytesOf = bytesByName(folder, [...new Set(beforehand.flatMap(file => blobs.get(file)?.name ?? []))], where);
  const read = (file: FileId, links: number): ReadText => {
    const blob = blobs.get(file);
    if (!blob) return links === 0 ? { absent: true } : { unreadable: `it is a link to what is not there ${where}` };
    if (!blob.isLink) return contentOf(file, bytesOf(blob.name));
    if (links === mostLinks) return { unreadable: "its links lead round in a loop" };
    return read(posix.resolve(posix.dirname(file), bytesOf(blob.name).toString()), links + 1);
  };
  return file => read(file, 0);
}

/** The same folders as on disk: hidden ones, and other people's packages. @param path from the folder that is looked through */
export function isLeftOut(path: string): boolean {
  return path
    .split("/")
    .slice(0, -1)
    .some(each => each.startsWith(".") || each === "node_modules");
}

/** Reads objects by name: those that are known beforehand in one go, any other when it is asked for. */
function bytesByName(folder: string, names: readonly string[], where: string): (name: string) => Buffer {
  const cannot = `git cannot read the files ${where}`;
  const known = new Map<string, Buffer>();
  const load = (wanted: readonly string[]): void => {
    if (wanted.length === 0) return;
    const said = askGit(folder, ["cat-file", "--batch"], cannot, `${wanted.join("\n")}\n`);
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
    if (!bytes) throw new ToolProblem(cannot);
    return bytes;
  };
}
