/** A sealed file that nobody opened: what stands in its place, and what may be behind it. */
import type { CodeCredential, Declaration, HolderDecl, TagCredential, Use, Word } from "../../grammar/tree.ts";
import type { FileId, Sealed, SourceFile } from "../finding.ts";
import { baseName, isFittedRecord } from "../site/paths.ts";
import type { Site } from "../site/site.ts";
import type { NamedHolder, Names } from "./names.ts";
import { namesFile, noNames, readNames } from "./names.ts";

/** Why a file is shut where nobody tried to open it. */
export const noIdentity = "no identity was given";

/** What opens it, for whoever is told that it is shut. */
export const giveIdentity = "give an identity that it was sealed for (--identity FILE, or MULLION_IDENTITY with the file's path)";

/**
 * The file as far as it is known without an identity: its holders with their codes and tags by name, without digits, numbers,
 * marks, labels and dates, and the files that it uses. Its text and its places are those of the names file. A names file that was
 * written for a sealed file of another size is out of date, and says nothing.
 *
 * @param names the text of the names file; undefined where there is none
 * @param why in words: "no identity was given"
 * @param bytes of the sealed file, where they are known
 */
export function shutFile(file: FileId, names: string | undefined, why: string, bytes?: number): SourceFile {
  const known = isFittedRecord(file) ? noNames : names === undefined ? undefined : current(readNames(names), bytes);
  const text = names ?? "";
  const declarations: Declaration[] = known ? [...known.uses.map(useNode), ...known.holders.map(holderNode)] : [];
  return {
    file: names === undefined ? file : namesFile(file),
    text,
    tree: { kind: "file", start: 0, end: text.length, declarations, comments: [] },
    problems: [],
    sealed: { file, open: false, why, ...(known ? { names: known } : {}) },
  };
}

function current(names: Names, bytes: number | undefined): Names | undefined {
  const said = names.sealedFor?.bytes;
  return said === undefined || bytes === undefined || said === bytes ? names : undefined;
}

function useNode(path: Names["uses"][number]): Use {
  return { kind: "use", start: path.start, end: path.end, keyword: { text: "use", start: path.start, end: path.start }, path };
}

function holderNode({ name, start, end, credentials }: NamedHolder): HolderDecl {
  const keyword: Word = { text: "holder", start, end: start + "holder".length };
  const facts = credentials.map((said): CodeCredential | TagCredential => ({
    kind: said.kind,
    start: said.keyword.start,
    end: (said.name ?? said.keyword).end,
    keyword: said.keyword,
    ...(said.name ? { name: said.name } : {}),
  }));
  return { kind: "holder", start, end, keyword, name, facts };
}

/**
 * A sealed file or a record that is there and cannot be read. Like one that is shut it is not taken for absent: without its record a
 * keypad would be planned as if it were new.
 *
 * @param why in words: "it is damaged"
 */
export function unreadableFile(file: FileId, names: string | undefined, why: string, bytes?: number): SourceFile {
  const source = shutFile(file, names, why, bytes);
  return source.sealed ? { ...source, sealed: { ...source.sealed, unreadable: true } } : source;
}

/** Whether what nothing else in the site declares may stand in a sealed file that is shut. */
export function mayBeSealed(site: Site, kind: "holder" | "keypad" | "model" | "door" | "supply", name: string): boolean {
  return site.shut.some(({ names }) => {
    // Without a names file, nobody knows.
    if (!names) return true;
    if (kind === "holder") return false;
    // A door is named by the label of a relay, which stands in a keypad and in no names file.
    if (kind === "door") return names.others.some(other => other.kind === "door" || other.kind === "keypad");
    return names.others.some(other => other.kind === kind && other.name === name);
  });
}

/** The names of the files that are shut, and why, in words: without a full stop. */
export function shutWords(shut: readonly Sealed[]): string {
  const broken = shut.filter(({ unreadable }) => unreadable).map(({ file, why }) => `${baseName(file)} cannot be read: ${why}`);
  const sealed = shut.filter(({ unreadable }) => !unreadable);
  const names = sealed.map(({ file }) => baseName(file));
  const reasons = [...new Set(sealed.flatMap(({ why }) => why ?? []))];
  const words = `${names.join(" and ")} ${names.length === 1 ? "is" : "are"} sealed${reasons.length === 0 ? "" : `, and ${reasons.join("; ")}`}`;
  return [...broken, ...(sealed.length === 0 ? [] : [words])].join("; ");
}

/** What to do about files that are shut, in words: without a full stop. */
export function shutInstead(shut: readonly Sealed[]): string {
  return shut.some(({ unreadable }) => unreadable) ? "put back an earlier version of it, from git or a backup" : giveIdentity;
}
