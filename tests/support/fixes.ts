/** Quick fixes in a test: applied file by file, the text read and checked anew. */
import { expect } from "vitest";
import { findingsAcross } from "../../shared/checks/across.ts";
import type { CheckContext } from "../../shared/checks/check.ts";
import { findingsOf, fixesFor } from "../../shared/checks/run.ts";
import type { Edit, FileId, Finding, Fix } from "../../shared/finding.ts";
import { loadSite } from "../../shared/site/load.ts";
import type { Fixture } from "./fixture.ts";
import { fixture, opener, siteOf, sitesOf, today } from "./fixture.ts";

/** The texts after the edits; edits of one file do not overlap. */
export function edited(files: ReadonlyMap<FileId, string>, edits: readonly Edit[]): ReadonlyMap<FileId, string> {
  const after = new Map(files);
  for (const edit of [...edits].sort((one, other) => other.start - one.start || other.end - one.end)) {
    const text = after.get(edit.file);
    if (text === undefined) throw new Error(`an edit changes ${edit.file}, which is no file of the fixture`);
    after.set(edit.file, text.slice(0, edit.start) + edit.text + text.slice(edit.end));
  }
  return after;
}

/** The fixes of the first finding of a code, with the findings of the text as it is after each of them. */
export function fixesIn(text: string, code: string, context: Partial<CheckContext> = {}): readonly Fixed[] {
  const read = fixture(text);
  const site = siteOf(read);
  const findings = [...findingsOf(site, { today, ...context }), ...findingsAcross(sitesOf(read))];
  const finding = findings.find(one => one.code === code);
  if (!finding) throw new Error(`no ${code} in the fixture`);
  return fixesFor(finding, site).map(fix => fixed(read, findings, fix, context));
}

export interface Fixed {
  readonly fix: Fix;
  readonly files: ReadonlyMap<FileId, string>;
  readonly before: readonly Finding[];
  readonly after: readonly Finding[];
}

function fixed(read: Fixture, before: readonly Finding[], fix: Fix, context: Partial<CheckContext>): Fixed {
  const files = edited(read.files, fix.edits);
  // The model `tiny` is there after the fix when it was before.
  const site = loadSite(read.root, opener({ root: read.root, files }));
  return { fix, files, before, after: findingsOf(site, { today, ...context }) };
}

/**
 * Applies the fix of that title to the first finding of a code, and compares the text of the first file after it.
 * The finding is gone, and none has come that is not in `brings`.
 */
export function checkFix(text: string, code: string, title: string, after: string, brings: readonly string[] = []): void {
  const all = fixesIn(text, code);
  const one = all.find(({ fix }) => fix.title === title);
  if (!one) throw new Error(`no fix is called "${title}", but ${all.map(({ fix }) => `"${fix.title}"`).join(", ")}`);
  const wanted = fixture(after);
  expect(Object.fromEntries(one.files)).toEqual(Object.fromEntries(wanted.files));
  expect(newCodes(one)).toEqual(brings);
  expect(one.after.filter(finding => finding.code === code).length).toBeLessThan(
    one.before.filter(finding => finding.code === code).length,
  );
}

/** Codes that are found more often after the fix than before it. */
export function newCodes({ before, after }: Fixed): readonly string[] {
  const count = (findings: readonly Finding[], code: string) => findings.filter(finding => finding.code === code).length;
  return [...new Set(after.map(finding => finding.code))].filter(code => count(after, code) > count(before, code)).sort();
}
