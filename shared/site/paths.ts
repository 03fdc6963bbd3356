/** Paths as a `use` writes them, on top of plain paths (`/a/b.mullion`, `C:/a/b.mullion`) and of URIs. */
import type { FileId } from "../finding.ts";

const uri = /^([A-Za-z][A-Za-z0-9+.-]+:\/\/[^/]*)(|\/.*)$/s;
const loneSurrogate = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;
const drive = /^([A-Za-z]:)(?=\/|$)/;

/**
 * The file that `written` means when the file `from` says it.
 *
 * @param from a path with forward slashes, or a URI whose path is percent-encoded.
 * @param written as it stands in the text: relative to `from`, with forward slashes and nothing encoded.
 */
export function resolvePath(from: FileId, written: string): FileId {
  if (uri.test(written)) return normalPath(written);
  const { root, path } = partsOf(from);
  const isUri = uri.test(from);
  const said = isUri ? encoded(written) : written;
  if (said.startsWith("/") || drive.test(said)) {
    return isUri ? root + tidy(said.startsWith("/") ? said : `/${said}`) : normalPath(said);
  }
  const folder = path.slice(0, path.lastIndexOf("/") + 1);
  return root + tidy(folder + said);
}

/** The same file with `.`, `..` and doubled slashes taken out; `..` stops at the root. */
export function normalPath(file: FileId): FileId {
  const { root, path } = partsOf(file);
  return root + tidy(path);
}

/** Whether a path is that of a Mullion file, plain or sealed, by its ending. */
export function isMullion(file: FileId): boolean {
  return /\.mullion(?:\.age)?$/.test(file);
}

/** Whether a path is that of a fitted record, plain or sealed, by its ending. */
export function isFittedRecord(file: FileId): boolean {
  return fittedEnding.test(file);
}

/** `NAME.mullion` for the record `NAME.fitted.mullion`, plain or sealed; undefined for any other file. */
export function siteOfRecord(record: FileId): FileId | undefined {
  return isFittedRecord(record) ? record.replace(fittedEnding, ".mullion") : undefined;
}

const fittedEnding = /\.fitted\.mullion(?:\.age)?$/;

/** `NAME.fitted.mullion` for `NAME.mullion` and for `NAME.mullion.age`; undefined for a record itself and for any other file. */
export function fittedCompanion(file: FileId): FileId | undefined {
  const plain = file.endsWith(".mullion.age") ? file.slice(0, -".age".length) : file;
  if (!plain.endsWith(".mullion") || plain.endsWith(".fitted.mullion")) return undefined;
  return `${plain.slice(0, -".mullion".length)}.fitted.mullion`;
}

/** The records that are read with a file without a `use`: the plain one and the sealed one. */
export function fittedCompanions(file: FileId): readonly FileId[] {
  const plain = fittedCompanion(file);
  return plain === undefined ? [] : [plain, `${plain}.age`];
}

/** What a `use` in `from` has to say to mean `target`; the whole of `target` where they share no root. */
export function relativePath(from: FileId, target: FileId): string {
  const here = partsOf(normalPath(from));
  const there = partsOf(normalPath(target));
  if (here.root !== there.root) return target;
  const folders = here.path.split("/").slice(0, -1);
  const way = there.path.split("/");
  let shared = 0;
  while (shared < folders.length && shared < way.length - 1 && folders[shared] === way[shared]) shared++;
  const steps = [...folders.slice(shared).map(() => ".."), ...way.slice(shared)].join("/");
  return uri.test(target) ? decoded(steps) : steps;
}

/** The last part of a path, for words. */
export function baseName(file: FileId): string {
  const name = file.slice(file.lastIndexOf("/") + 1);
  return uri.test(file) ? decoded(name) : name;
}

function partsOf(file: FileId): { readonly root: string; readonly path: string } {
  const address = uri.exec(file);
  if (address) return { root: address[1] ?? "", path: address[2] ?? "" };
  const letter = drive.exec(file);
  if (letter) return { root: letter[1] ?? "", path: file.slice(2) };
  const share = /^\/\/[^/]+/.exec(file);
  return share ? { root: share[0], path: file.slice(share[0].length) } : { root: "", path: file };
}

function tidy(path: string): string {
  const absolute = path.startsWith("/");
  const kept: string[] = [];
  for (const step of path.split("/")) {
    if (step === "" || step === ".") continue;
    if (step !== "..") kept.push(step);
    else if (kept.length > 0 && kept[kept.length - 1] !== "..") kept.pop();
    else if (!absolute) kept.push("..");
  }
  return (absolute ? "/" : "") + kept.join("/");
}

/** Encoded as editors write URIs: everything but letters, digits and `-._~`, so that equal files have equal text. */
function encoded(path: string): string {
  return path
    .split("/")
    .map(step => encodeURIComponent(step.replace(loneSurrogate, "\ufffd")))
    .join("/")
    .replace(/[!'()*]/g, sign => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`);
}

function decoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}
