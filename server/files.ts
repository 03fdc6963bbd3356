/** Reads Mullion files from disk: a path becomes a source file, a folder the files in it. Links that loop, pipes and unreadable files end here. */
import { isUtf8 } from "node:buffer";
import type { Stats } from "node:fs";
import { lstatSync, readdirSync, readFileSync, realpathSync, statSync } from "node:fs";
import { resolve, sep } from "node:path";
import { parse } from "../grammar/parse.ts";
import type { FileId, SourceFile } from "../shared/finding.ts";
import { isSealed, namesFile } from "../shared/sealed/names.ts";
import { shutFile, unreadableFile } from "../shared/sealed/shut.ts";
import { isFittedRecord, isMullion } from "../shared/site/paths.ts";
import { whyNotSealed } from "./seal/beginnings.ts";
import { systemReason } from "./tool-problem.ts";
import { mayGoOnWithout, metAs, unsealed } from "./unsealing.ts";

/** A file or folder that is there and cannot be used; `reason` in words, without the path. */
export interface ReadProblem {
  readonly file: FileId;
  readonly reason: string;
}

/** Of a sealed file there are bytes until somebody opens it. */
export type ReadText =
  | { readonly text: string }
  | { readonly sealed: Uint8Array }
  | { readonly absent: true }
  | { readonly unreadable: string };

/** The largest file that is read, in bytes: some 500,000 lines, beyond any site. */
export const largestFile = 16 * 1024 * 1024;

/** The absolute path with forward slashes, which is how files are named inside Mullion. */
export function fileIdOf(path: string, workingFolder: string): FileId {
  const absolute = resolve(workingFolder, path);
  return sep === "/" ? absolute : absolute.replaceAll(sep, "/");
}

/** The text of a regular file, a byte order mark kept. Never waits for a pipe or a device. */
export function readText(file: FileId): ReadText {
  try {
    const stats = statSync(file);
    if (!stats.isFile()) return { unreadable: `it is ${kindOf(stats)}, not a file` };
    if (stats.size > largestFile) return tooLarge(stats.size);
    return contentOf(file, readFileSync(file));
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT" || code === "ENOTDIR") return isThere(file) ? { unreadable: "it is a link to nothing" } : { absent: true };
    return { unreadable: systemReason(error) };
  }
}

/** What a file of that name with those bytes is: text, a byte order mark kept, or what is sealed. */
export function contentOf(file: FileId, bytes: Buffer): ReadText {
  if (!isSealed(file)) return textIn(bytes);
  if (bytes.length > largestFile) return tooLarge(bytes.length);
  const not = whyNotSealed(bytes);
  return not === undefined ? { sealed: bytes } : { unreadable: not };
}

/** The text that some bytes are, a byte order mark kept. */
function textIn(bytes: Buffer): ReadText {
  if (bytes.length > largestFile) return tooLarge(bytes.length);
  if (isUtf8(bytes)) return { text: bytes.toString("utf8") };
  const utf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
  return { unreadable: utf16 ? "it is UTF-16 text; save it as UTF-8" : "it is not UTF-8 text" };
}

/** @param size in bytes */
function tooLarge(size: number): ReadText {
  return { unreadable: `it has ${megabytes(size)} MB, and files up to ${megabytes(largestFile)} MB are read` };
}

/** Reads each file once and keeps it. `open` answers undefined where there is no file or it cannot be read; a sealed file or a record that cannot is shut. */
export interface Shelf {
  readonly open: (file: FileId) => SourceFile | undefined;
  /** Lets go of a file that is not needed any more; it would be read again. */
  readonly forget: (file: FileId) => void;
  /** Files that are there and could not be read, in the order met. */
  readonly problems: readonly ReadProblem[];
}

export function shelf(textOf: (file: FileId) => ReadText = readText): Shelf {
  const opened = new Map<FileId, SourceFile | undefined>();
  const problems: ReadProblem[] = [];
  const broken = (file: FileId, reason: string, names?: string, bytes?: number): SourceFile | undefined => {
    problems.push({ file, reason });
    if (!isSealed(file) && !isFittedRecord(file)) return undefined;
    mayGoOnWithout(file, reason);
    return unreadableFile(file, names, reason, bytes);
  };
  const readSealed = (file: FileId, bytes: Uint8Array): SourceFile | undefined => {
    const read = textOf(namesFile(file));
    const names = "text" in read ? read.text : undefined;
    const result = unsealed(metAs(file, bytes, names));
    if ("text" in result) return { file, text: result.text, ...parse(result.text), sealed: { file, open: true } };
    if ("shut" in result) return shutFile(file, names, result.shut, bytes.length);
    return broken(file, result.unreadable, names, bytes.length);
  };
  const read = (file: FileId): SourceFile | undefined => {
    const found = textOf(file);
    if ("sealed" in found) return readSealed(file, found.sealed);
    if ("text" in found) return { file, text: found.text, ...parse(found.text) };
    return "unreadable" in found ? broken(file, found.unreadable) : undefined;
  };
  return {
    problems,
    forget: file => void opened.delete(file),
    open: file => {
      if (!opened.has(file)) opened.set(file, read(file));
      return opened.get(file);
    },
  };
}

export interface FoundFiles {
  readonly files: readonly FileId[];
  readonly problems: readonly ReadProblem[];
}

/**
 * Every `*.mullion` and `*.mullion.age` file under a folder, sorted by path. Links to files are followed; links to folders are not, so that no
 * loop of links is ever walked. Folders whose name begins with a dot and `node_modules` are left out.
 */
export function mullionFilesUnder(folder: FileId): FoundFiles {
  const files: FileId[] = [];
  const problems: ReadProblem[] = [];
  const walk = (at: FileId): void => {
    let entries: ReturnType<typeof readFolder>;
    try {
      entries = readFolder(at);
    } catch (error) {
      problems.push({ file: at, reason: systemReason(error) });
      return;
    }
    for (const entry of entries) {
      const path = at.endsWith("/") ? at + entry.name : `${at}/${entry.name}`;
      if (entry.isDirectory()) {
        if (!entry.name.startsWith(".") && entry.name !== "node_modules") walk(path);
      } else if (isMullion(entry.name) && !(entry.isSymbolicLink() && isFolder(path))) files.push(path);
    }
  };
  walk(folder);
  return { files, problems };
}

export function isFolder(path: string): boolean {
  return statOf(path)?.isDirectory() ?? false;
}

/** The path with its links followed; itself where there is nothing. */
export function realFile(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}

/** There is something at the path, be it a link to nothing. */
export function isThere(path: string): boolean {
  return statOf(path, lstatSync) !== undefined;
}

function statOf(path: string, how: typeof statSync | typeof lstatSync = statSync): Stats | undefined {
  try {
    return how(path, { throwIfNoEntry: false });
  } catch {
    return undefined;
  }
}

function readFolder(folder: FileId) {
  return readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

function kindOf(stats: Stats): string {
  if (stats.isDirectory()) return "a folder";
  if (stats.isFIFO()) return "a pipe";
  if (stats.isSocket()) return "a socket";
  return "a device";
}

function megabytes(bytes: number): number {
  return Math.ceil(bytes / (1024 * 1024));
}
