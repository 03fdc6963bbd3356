/** A plain site taken apart: what holds codes goes into sealed texts, what is left names it. */
import type { Declaration, KeypadDecl, Span } from "../../grammar/tree.ts";
import { lineBreakOf } from "../checks/edits.ts";
import { edited } from "../edited.ts";
import type { Edit, FileId, SourceFile } from "../finding.ts";
import { quoted } from "../quoted.ts";
import { fittedCompanion, fittedCompanions, relativePath } from "../site/paths.ts";
import type { Site } from "../site/site.ts";
import { shutWords } from "./shut.ts";

export interface Split {
  /** What is to be sealed, by the path of the sealed file: the people, and each record. */
  readonly sealed: ReadonlyMap<FileId, string>;
  /** Edits of the plain files that stay. */
  readonly edits: readonly Edit[];
  /** Plain records that are sealed as they are, and go. */
  readonly gone: readonly FileId[];
}

/** The holder that is made for installer codes that stood at their keypads. */
const ownerLabel = "Installer codes";

/**
 * Takes every holder, every installer code and every record out of a site.
 *
 * @param people the path of the sealed file that the holders go into
 * @returns or why not, in words without a full stop
 */
export function splitSite(site: Site, people: FileId): Split | { readonly not: string } {
  const plain = site.files.filter(({ sealed }) => !sealed);
  const record = fittedCompanion(site.root);
  const broken = site.shut.filter(({ unreadable }) => unreadable);
  if (broken.length > 0) return { not: shutWords(broken) };
  if (site.shut.length > 0) return { not: "a file of the site is sealed and was not opened" };
  if (record === undefined) return { not: "it is a record; name the site's file" };
  // What is half typed may be a code that nobody would take for one.
  if (plain.some(({ problems }) => problems.length > 0)) return { not: "its text cannot be read everywhere; mullion check says where" };

  const edits: Edit[] = [];
  const parts: string[] = [];
  const records = new Map<FileId, string>();
  const gone: FileId[] = [];
  const companions = new Set(site.files.flatMap(({ file }) => fittedCompanions(file)));
  // Blocks of the site's file and a record beside it go into one sealed file, in the order in which they are read.
  const seal = (file: FileId, text: string) => {
    const before = records.get(file);
    records.set(file, before === undefined ? text : `${before}${lineBreakOf(before)}${text.replace(/^\ufeff/, "")}`);
  };
  for (const source of plain) {
    if (companions.has(source.file)) {
      if (source.tree.declarations.every(({ kind }) => kind !== "fitted")) continue;
      seal(`${source.file}.age`, source.text);
      gone.push(source.file);
      continue;
    }
    const taken = stretches(source, "holder");
    const blocks = stretches(source, "fitted");
    for (const span of taken) parts.push(wholeLines(source, span));
    for (const span of blocks) seal(`${record}.age`, wholeLines(source, span));
    for (const span of joined(source.text, [...taken, ...blocks]))
      edits.push({ file: source.file, ...withBlankLine(source.text, span), text: "" });
    if (taken.length > 0) edits.push(useOf(source, people));
  }

  const installers = installersIn(plain);
  if (installers.length > 0) {
    const owner = freeName("firm-codes", site.holders);
    parts.push(`holder ${owner} "${ownerLabel}"\n${installers.map(({ name, digits }) => `  code ${name} ${digits.text}\n`).join("")}`);
    for (const { file, name, digits } of installers) edits.push({ file, start: digits.start, end: digits.end, text: `${owner}.${name}` });
  }
  if (parts.length === 0 && records.size === 0) return { not: "there is no holder, no installer code and no record in plain text" };
  const root = plain.find(({ file }) => file === site.root);
  if (parts.length > 0 && root && !edits.some(({ text }) => text.includes('use "'))) edits.push(useOf(root, people));
  const sealed = new Map(records);
  if (parts.length > 0) sealed.set(people, parts.join("\n"));
  return { sealed, edits: merged(edits), gone };
}

interface InPlace {
  readonly file: FileId;
  readonly name: string;
  readonly digits: Span & { readonly text: string };
}

/** Installer codes that stand at their keypads, by the keypad's name. */
function installersIn(plain: readonly SourceFile[]): readonly InPlace[] {
  const keypads = plain.flatMap(({ file, tree }) => tree.declarations.flatMap(node => (node.kind === "keypad" ? [{ file, node }] : [])));
  const taken = new Set<string>(["code", "tag"]);
  return keypads.flatMap(({ file, node }: { file: FileId; node: KeypadDecl }) =>
    node.facts.flatMap((fact): InPlace[] => {
      if (fact.kind !== "installer" || !fact.digits) return [];
      const name = freeName(node.name?.text ?? "keypad", taken);
      taken.add(name);
      return [{ file, name, digits: fact.digits }];
    }),
  );
}

function freeName(wanted: string, taken: { has(name: string): boolean }): string {
  for (let n = 1; ; n++) {
    const name = n === 1 ? wanted : `${wanted}-${n}`;
    if (!taken.has(name)) return name;
  }
}

/** Declarations of a kind with the comments that belong to them: those right above, and behind them on their last line. */
function stretches(source: SourceFile, kind: Declaration["kind"]): readonly Span[] {
  const { text, tree } = source;
  const all = tree.declarations;
  return all.flatMap((node, index): Span[] => {
    if (node.kind !== kind) return [];
    let start = node.start;
    const before = all[index - 1]?.end ?? 0;
    const lineStart = text.lastIndexOf("\n", start - 1) + 1;
    if (
      lineStart >= before &&
      text
        .slice(lineStart, start)
        .replace(/^\ufeff/, "")
        .trim() === ""
    ) {
      start = lineStart === 0 && text.startsWith("\ufeff") ? 1 : lineStart;
      for (let above = commentAbove(source, start); above !== undefined && above >= before; above = commentAbove(source, start))
        start = above;
    }
    return [{ start, end: endWith(source, node.end, all[index + 1]?.start ?? text.length) }];
  });
}

/** The start of the line above, where nothing but a comment stands on it. */
function commentAbove({ text, tree }: SourceFile, lineStart: number): number | undefined {
  if (lineStart === 0) return undefined;
  const above = text.lastIndexOf("\n", lineStart - 2) + 1;
  return tree.comments.some(({ alone, start, end }) => alone && above <= start && end <= lineStart) ? above : undefined;
}

/** To the end of the line, its break included, unless another declaration stands on it. */
function endWith({ text }: SourceFile, end: number, next: number): number {
  const lineBreak = text.indexOf("\n", end);
  const lineEnd = lineBreak < 0 ? text.length : lineBreak + 1;
  return lineEnd <= next ? lineEnd : end;
}

function wholeLines({ text }: SourceFile, { start, end }: Span): string {
  const taken = text.slice(start, end);
  return taken.endsWith("\n") ? taken : `${taken}${lineBreakOf(text)}`;
}

/** Stretches with nothing but blanks between them, on one line say, are cut out as one. */
function joined(text: string, spans: readonly Span[]): readonly Span[] {
  const result: Span[] = [];
  for (const span of [...spans].sort((one, other) => one.start - other.start)) {
    const before = result.at(-1);
    if (before && text.slice(before.end, span.start).trim() === "" && !text.slice(before.end, span.start).includes("\n"))
      result[result.length - 1] = { start: before.start, end: span.end };
    else result.push(span);
  }
  return result;
}

/** With the blank line behind it, where one stands before it too. */
function withBlankLine(text: string, { start, end }: Span): Span {
  const opensGap = start === 0 || /\n[ \t]*\r?\n$/.test(text.slice(Math.max(0, start - 200), start));
  const blank = /^[ \t]*\r?\n/.exec(text.slice(end, end + 200));
  return opensGap && blank && text[end - 1] === "\n" ? { start, end: end + blank[0].length } : { start, end };
}

/** The line that uses the sealed file: behind the last `use`, else at the very beginning. */
function useOf(source: SourceFile, people: FileId): Edit {
  const { file, text, tree } = source;
  const eol = lineBreakOf(text);
  const line = `use ${quoted(relativePath(file, people))}`;
  const last = tree.declarations.filter(({ kind }) => kind === "use").at(-1);
  if (!last) {
    const at = text.startsWith("\ufeff") ? 1 : 0;
    return { file, start: at, end: at, text: `${line}${eol}${eol}` };
  }
  const at = endWith(source, last.end, tree.declarations.find(({ start }) => start > last.start)?.start ?? text.length);
  const isLine = text[at - 1] === "\n";
  return { file, start: at, end: at, text: isLine ? `${line}${eol}` : `${eol}${line}${eol}` };
}

/** Stretches that touch or overlap are one; an insertion inside of one comes before it. */
function merged(edits: readonly Edit[]): readonly Edit[] {
  const ordered = [...edits].sort((one, other) =>
    one.file < other.file ? -1 : one.file > other.file ? 1 : one.start - other.start || one.end - other.end,
  );
  const result: Edit[] = [];
  for (const edit of ordered) {
    const before = result.at(-1);
    if (before && before.file === edit.file && edit.start <= before.end)
      result[result.length - 1] = { ...before, end: Math.max(before.end, edit.end), text: before.text + edit.text };
    else result.push(edit);
  }
  return result;
}

/** The plain files after it, by path. */
export function plainAfter(site: Site, { edits, gone }: Split): ReadonlyMap<FileId, string> {
  const files = site.files.filter(({ file, sealed }) => !sealed && !gone.includes(file));
  return new Map(
    files.map(({ file, text }) => [
      file,
      edited(
        text,
        edits.filter(edit => edit.file === file),
      ),
    ]),
  );
}
