/** Mullion text in a test: several files in one string, marks under the line for what is to be found, `$0` for the cursor. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { parse } from "../../grammar/parse.ts";
import type { Use } from "../../grammar/tree.ts";
import { findingsAcross } from "../../shared/checks/across.ts";
import type { CheckContext } from "../../shared/checks/check.ts";
import { findingsOf } from "../../shared/checks/run.ts";
import type { FileId, Finding, SourceFile } from "../../shared/finding.ts";
import { isSealed, namesFile } from "../../shared/sealed/names.ts";
import { noIdentity, shutFile } from "../../shared/sealed/shut.ts";
import { loadSite } from "../../shared/site/load.ts";
import type { Site } from "../../shared/site/site.ts";

/**
 * Mullion text as it stands between the backticks; for its colours in an editor, and so that `\"` stays. A value of several
 * lines is set in as deep as the place where it stands.
 */
export function mullion(text: TemplateStringsArray, ...values: readonly (string | number)[]): string {
  return text.raw.reduce((before, part, index) => {
    const value = String(values[index - 1] ?? "");
    const indent = /(?:^|\n)([ ]*)[^\n]*$/.exec(before)?.[1] ?? "";
    return before + value.trim().split("\n").join(`\n${indent}`) + part;
  });
}

/** The day on which fixtures are read, unless they say another. */
export const today = "2026-11-25";

/** The file that a fixture's text is in when it does not name one. */
const mainFile: FileId = "/main.mullion";

/** A model of one relay and three slots, there for every fixture that declares no model. */
export const tiny: string = readFileSync(fileURLToPath(new URL("./tiny.mullion", import.meta.url)), "utf8");
const tinyFile: FileId = "/tiny.mullion";

export interface Fixture {
  /** The first file: the one to load the site from. */
  readonly root: FileId;
  /** Marks and cursor taken out, common indent taken off. In the order written. */
  readonly files: ReadonlyMap<FileId, string>;
  readonly marks: readonly Mark[];
  /** Where `$0` stands; with `$0…$0` from the one to the other. */
  readonly cursor?: { readonly file: FileId; readonly start: number; readonly end: number };
}

/** What is expected on a line: a stretch of code points, or the whole file. Lines and columns count from 0. */
export interface Mark {
  readonly file: FileId;
  readonly line: number;
  /** -1 for `^file`. */
  readonly column: number;
  readonly length: number;
  readonly code: string;
}

const markLine = /^(\s*)\/\/( *)(\^+) ([a-z][a-z-]*)$/;
const fileMark = /^\s*\/\/ *\^file ([a-z][a-z-]*)$/;
const fileLine = /^\s*\/\/- (\S+)$/;
const cursorSign = "$0";

/**
 * Reads a fixture. A line `//- name.mullion` begins a file. A line of `//`, blanks, carets and one code, nothing else, is a mark:
 * its carets stand under what is to be found in the last line of text above. `// ^file code` marks the whole file.
 *
 * @throws Error on tabs in the indent, on a mark above all text and on the same mark twice.
 */
export function fixture(text: string): Fixture {
  const lines = text
    .replace(/^\n/, "")
    .replace(/\n[ ]*$/, "")
    .split("\n");
  const isText = (line: string) => line.trim() !== "" && !markLine.test(line) && !fileMark.test(line) && !fileLine.test(line);
  const indents = lines.filter(isText).map(line => /^[ \t]*/.exec(line)?.[0] ?? "");
  if (indents.some(indent => indent.includes("\t"))) throw new Error("a fixture is indented with blanks");
  const indent = indents.length === 0 ? 0 : Math.min(...indents.map(one => one.length));

  const files = new Map<FileId, string[]>();
  const marks: Mark[] = [];
  let file = mainFile;
  let root: FileId | undefined;
  const linesOf = (name: FileId) => {
    const known = files.get(name) ?? [];
    files.set(name, known);
    root ??= name;
    return known;
  };
  for (const line of lines) {
    const begins = fileLine.exec(line);
    if (begins) {
      file = `/${begins[1]}`;
      linesOf(file);
      continue;
    }
    const own = linesOf(file);
    const marked = markLine.exec(line);
    const whole = fileMark.exec(line);
    if (!marked && !whole) {
      own.push(line.slice(Math.min(indent, line.length - line.trimStart().length)));
      continue;
    }
    const above = own.length - 1;
    if (above < 0 && marked) throw new Error(`nothing stands above the mark "${line.trim()}"`);
    const column = marked ? (marked[1] ?? "").length + 2 + (marked[2] ?? "").length - indent : -1;
    const mark = { file, line: whole ? 0 : above, column, length: marked?.[3]?.length ?? 0, code: marked?.[4] ?? whole?.[1] ?? "" };
    if (marks.some(other => sameMark(other, mark))) throw new Error(`the mark "${line.trim()}" stands twice`);
    marks.push(mark);
  }

  const texts = new Map<FileId, string>();
  let cursor: Fixture["cursor"];
  for (const [name, own] of files) {
    const [first, ...later] = own.join("\n").split(cursorSign);
    texts.set(name, [first, ...later].join(""));
    if (later.length === 0) continue;
    if (cursor || later.length > 2) throw new Error("a fixture has one cursor, or the two ends of a selection");
    const start = (first ?? "").length;
    cursor = { file: name, start, end: start + (later.length === 2 ? (later[0] ?? "").length : 0) };
  }
  return { root: root ?? mainFile, files: texts, marks, ...(cursor ? { cursor } : {}) };
}

/** A file as a reader hands it over: parsed, or as a sealed file that nobody opened. */
export function sourceIn(texts: ReadonlyMap<FileId, string>, file: FileId): SourceFile | undefined {
  const text = texts.get(file);
  if (text === undefined) return undefined;
  return isSealed(file) ? shutFile(file, texts.get(namesFile(file)), noIdentity) : { file, text, ...parse(text) };
}

/** What reads the files of a fixture: with `tiny` used by its root, where it declares no model of its own. */
export function opener(read: Pick<Fixture, "root" | "files">): (file: FileId) => SourceFile | undefined {
  const texts = new Map(read.files);
  const needsTiny = ![...texts.values()].some(text => /^\s*model\s+\S+\s+"/m.test(text));
  if (needsTiny) texts.set(tinyFile, tiny);
  return file => {
    const source = sourceIn(texts, file);
    if (!source) return undefined;
    const { tree } = source;
    if (!needsTiny || file !== read.root) return source;
    // A declaration that is not in the text, so that offsets stay as they are.
    const nowhere = { start: 0, end: 0 };
    const use: Use = { kind: "use", ...nowhere, keyword: { ...nowhere, text: "use" }, path: { ...nowhere, text: tinyFile } };
    return { ...source, tree: { ...tree, declarations: [use, ...tree.declarations] } };
  };
}

/** The site of a fixture, as the checks and the planner get it. */
export function siteOf(text: string | Fixture): Site {
  const read = typeof text === "string" ? fixture(text) : text;
  return loadSite(read.root, opener(read));
}

/** The site of the first file, and those of other files that are sites of their own. */
export function sitesOf(read: Fixture): readonly Site[] {
  const others = [...read.files].filter(([file, text]) => file !== read.root && /^site\b/m.test(text)).map(([file]) => file);
  return [read.root, ...others].map(root => loadSite(root, opener({ ...read, root })));
}

/** Compares the whole set of findings with the marks, both ways; a failure prints the fixture with its actual marks, ready to paste. */
export function checkFindings(text: string, context: Partial<CheckContext> = {}): readonly Finding[] {
  const read = fixture(text);
  const sites = sitesOf(read);
  const findings = [...sites.flatMap(site => findingsOf(site, { today, ...context })), ...findingsAcross(sites)];
  for (const site of sites) expect(tellingCodes(site, findings)).toEqual([]);
  const actual = findings.map(finding => markOf(finding, read));
  const twice = actual.find((mark, index) => actual.findIndex(other => sameMark(other, mark)) < index);
  const shown = `found is:\n\n${withMarks(read, actual)}\n\n${findings.map(finding => `${finding.code}: ${finding.message}`).join("\n")}\n`;
  if (twice) expect.fail(`${twice.code} is found twice in one place; ${shown}`);
  if (withMarks(read, actual) !== withMarks(read, read.marks)) expect(withMarks(read, actual), shown).toBe(withMarks(read, read.marks));
  return findings;
}

/** Words of findings that hold the digits of a code of the site: there must be none, in any fixture. */
export function tellingCodes(site: Site, findings: readonly Finding[]): readonly string[] {
  const memories = [...site.fitted.map(({ memory }) => memory), ...[...site.models.values()].map(({ factory }) => factory)];
  const codes = new Set<string | undefined>([
    ...[...site.holders.values()].flatMap(holder => holder.credentials.map(({ digits }) => digits)),
    ...[...site.keypads.values()].map(({ installer }) => installer?.digits),
    ...memories.flatMap(memory => [
      memory?.installer,
      ...[...(memory?.slots.values() ?? [])].map(({ code }) => code),
      ...[...(memory?.allRelay.values() ?? [])].map(({ code }) => code),
    ]),
  ]);
  const words = findings.flatMap(finding => [finding.message, ...finding.related.map(({ message }) => message)]);
  return words.filter(text => [...codes].some(code => code !== undefined && code.length > 2 && text.includes(code)));
}

/** Where a finding stands, as a mark would say it: an empty stretch is one caret, a long one goes to the end of its first line. */
export function markOf(finding: Finding, read: Pick<Fixture, "files">): Mark {
  const text = read.files.get(finding.file) ?? "";
  const { file, code } = finding;
  if (finding.start === 0 && finding.end === text.length && text.includes("\n")) return { file, line: 0, column: -1, length: 0, code };
  const lineStart = finding.start === 0 ? 0 : text.lastIndexOf("\n", finding.start - 1) + 1;
  const lineBreak = text.indexOf("\n", lineStart);
  const lineEnd = lineBreak < 0 ? text.length : lineBreak;
  const line = text.slice(0, lineStart).split("\n").length - 1;
  const column = [...text.slice(lineStart, finding.start)].length;
  const length = Math.max(1, [...text.slice(finding.start, Math.min(finding.end, lineEnd))].length);
  return { file, line, column, length, code };
}

/** A fixture's text with marks under its lines. */
export function withMarks(read: Pick<Fixture, "files">, marks: readonly Mark[]): string {
  const indent = " ".repeat(marks.some(mark => mark.column >= 0 && mark.column < 2) ? 2 : 0);
  const out: string[] = [];
  const several = read.files.size > 1 || ![...read.files.keys()].includes(mainFile);
  for (const [file, text] of read.files) {
    const own = marks.filter(mark => mark.file === file);
    if (several) out.push(`${indent}//- ${file.slice(1)}`);
    const inOrder = (list: readonly Mark[]) =>
      [...list].sort((one, other) => one.column - other.column || one.length - other.length || one.code.localeCompare(other.code));
    for (const mark of inOrder(own.filter(one => one.column < 0))) out.push(`${indent}// ^file ${mark.code}`);
    text.split("\n").forEach((line, index) => {
      out.push(line === "" ? "" : indent + line);
      for (const mark of inOrder(own.filter(one => one.column >= 0 && one.line === index))) {
        const under = indent.length + mark.column;
        // The two slashes stand right before the carets.
        out.push(`${" ".repeat(under - 2)}//${"^".repeat(mark.length)} ${mark.code}`);
      }
    });
  }
  // Findings in a file that the fixture does not hold (`tiny`, a missing one) are shown too.
  for (const mark of marks) if (!read.files.has(mark.file)) out.push(`in ${mark.file}, line ${mark.line + 1}: ${mark.code}`);
  return out.join("\n");
}

function sameMark(one: Mark, other: Mark): boolean {
  return (
    one.file === other.file &&
    one.line === other.line &&
    one.column === other.column &&
    one.length === other.length &&
    one.code === other.code
  );
}
