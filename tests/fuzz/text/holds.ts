/** What holds for any text: nothing is thrown, every place lies within, layout is steady and changes no meaning, and twice gives the same. */
import { format, isSame, layOut } from "../../../grammar/format.ts";
import { parse } from "../../../grammar/parse.ts";
import type { Parsed, Span } from "../../../grammar/tree.ts";
import { findingsAcross } from "../../../shared/checks/across.ts";
import { findingsOf, fixesFor } from "../../../shared/checks/run.ts";
import { outlineOf } from "../../../shared/editor/outline.ts";
import type { FileId, Finding, Place, SourceFile } from "../../../shared/finding.ts";
import { loadSite } from "../../../shared/site/load.ts";
import type { Site } from "../../../shared/site/site.ts";
import { around } from "./corpus.ts";

export const today = "2026-11-25";

/** What only a slip of the program would say, unless the text itself does. */
const insides = /undefined|NaN|\[object/;

/** Says what does not hold; without digits of the text, which may be a code. */
export function holds(condition: boolean, what: string): asserts condition {
  if (!condition) throw new Error(what);
}

/** Reads, lays out and checks one text. @param thorough also what costs as much again: once more from the start, and every way out. */
export function checkText(file: FileId, text: string, thorough: boolean): { readonly source: SourceFile; readonly site: Site } {
  const parsed = parse(text);
  checkParsed(text, parsed);
  checkLayout(text, parsed);
  const source = { file, text, ...parsed };
  const site = loadSite(file, around(source));
  const findings = findingsIn(site);
  checkFindings(site, findings);
  if (thorough) {
    const again = loadSite(file, around({ file, text, ...parse(text) }));
    holds(wordsOf(findings) === wordsOf(findingsIn(again)), "the findings of one text differ from one time to the next");
    checkFixes(site, findings);
  }
  return { source, site };
}

function findingsIn(site: Site): readonly Finding[] {
  return [...findingsOf(site, { today }), ...findingsAcross([site])];
}

function wordsOf(findings: readonly Finding[]): string {
  return JSON.stringify(findings.map(({ found: _, ...said }) => said));
}

/** Every node in the one around it, every problem and comment in the text, in order. */
function checkParsed(text: string, { tree, problems }: Parsed): void {
  const whole = { start: 0, end: text.length };
  checkNode(tree, whole);
  let before = 0;
  for (const problem of problems) {
    checkWithin(problem, whole, "a problem");
    holds(problem.start >= before, "problems are not in the order of the text");
    before = problem.start;
    for (const place of problem.related ?? []) checkWithin(place, whole, "the other place of a problem");
    holds(
      insides.test(text) || !/undefined|NaN|\bEOF\b|token|\[object|\bTRUE\b/.test(problem.message),
      "a problem speaks of the parser's insides",
    );
  }
  const outline = (items: ReturnType<typeof outlineOf>, within: Span): void => {
    for (const item of items) {
      checkWithin(item, within, "an item of the outline");
      checkWithin(item.select, item, "the shown part of an item of the outline");
      holds(item.name !== "", "an item of the outline has no name");
      outline(item.children, item);
    }
  };
  outline(outlineOf(tree), whole);
}

function checkNode(node: object | null, around: Span): void {
  if (node === null) return;
  let within = around;
  if ("start" in node && "end" in node) {
    within = node as Span;
    checkWithin(within, around, "a node of the tree");
  }
  for (const key in node) {
    const value = (node as Record<string, unknown>)[key];
    if (typeof value === "object") checkNode(value, within);
  }
}

function checkWithin({ start, end }: Span, around: Span, what: string): void {
  const lies = Number.isInteger(start) && Number.isInteger(end) && start >= around.start && start <= end && end <= around.end;
  holds(lies, `${what} from ${start} to ${end} is not within ${around.start} to ${around.end}`);
}

function checkLayout(text: string, parsed: Parsed): void {
  if (parsed.problems.length > 0) {
    holds(format(text) === undefined, "a text with problems is laid out");
    return;
  }
  const once = layOut(text, parsed);
  const read = parse(once);
  holds(isSame(parsed, read), "layout changes what a text means, or loses a comment");
  holds(layOut(once, read) === once, "laid out twice is not laid out once");
}

function checkFindings(site: Site, findings: readonly Finding[]): void {
  const texts = new Map(site.files.map(source => [source.file, source.text]));
  const check = (place: Place, what: string) => {
    const text = texts.get(place.file);
    holds(text !== undefined, `${what} is in a file that the site does not read`);
    checkWithin(place, { start: 0, end: text.length }, what);
  };
  const codes = codesIn(site);
  const isOdd = site.files.some(({ text }) => insides.test(text));
  for (const finding of findings) {
    check(finding, `a finding of ${finding.code}`);
    for (const place of finding.related) check(place, `the other place of ${finding.code}`);
    for (const words of [finding.message, ...finding.related.map(({ message }) => message)]) {
      holds(words !== "" && (isOdd || !insides.test(words)), `${finding.code} speaks of the program's insides`);
      if (/\d{4}/.test(words)) for (const code of codes) holds(!words.includes(code), `${finding.code} tells a code`);
    }
  }
}

/** Codes of holders and keypads, of four digits and more, that stand nowhere else in the texts: not in a label, nor as a number by chance. */
function codesIn(site: Site): readonly string[] {
  const codes = [
    ...[...site.holders.values()].flatMap(({ credentials }) => credentials.map(({ digits }) => digits)),
    ...[...site.keypads.values()].map(({ installer }) => installer?.digits),
  ];
  const long = new Set(codes.filter(code => code !== undefined && code.length >= 4)) as ReadonlySet<string>;
  if (long.size === 0) return [];
  const elsewhere = site.files.map(({ text }) => text.replace(/\bcode(?:\s+[A-Za-z][\w-]*)?\s+\d+/g, "")).join("\n");
  return [...long].filter(code => !elsewhere.includes(code));
}

/** Each way out changes texts of the site within their bounds, and what comes out can be read. */
function checkFixes(site: Site, findings: readonly Finding[]): void {
  const texts = new Map(site.files.map(source => [source.file, source.text]));
  const isOdd = site.files.some(({ text }) => insides.test(text));
  for (const finding of findings.slice(0, 20))
    for (const fix of fixesFor(finding, site)) {
      holds(fix.title !== "" && (isOdd || !insides.test(fix.title)), `a way out of ${finding.code} has no proper title`);
      const after = new Map<FileId, string>();
      for (const edit of [...fix.edits].sort((one, other) => other.start - one.start || other.end - one.end)) {
        const text = after.get(edit.file) ?? texts.get(edit.file);
        if (text === undefined) continue;
        checkWithin(edit, { start: 0, end: text.length }, `a way out of ${finding.code}`);
        after.set(edit.file, text.slice(0, edit.start) + edit.text + text.slice(edit.end));
      }
      for (const text of after.values()) checkParsed(text, parse(text));
    }
}
