/** Checks every site among some files once, and on their own the files that no site uses. */
import { Across } from "../../../shared/checks/across.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import type { FileId, Finding, SourceFile } from "../../../shared/finding.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { siteOfRecord } from "../../../shared/site/paths.ts";
import { rootsOf } from "../../../shared/site/roots.ts";
import type { Day, Site } from "../../../shared/site/site.ts";
import type { ReadProblem, Shelf } from "../../files.ts";
import { isThere, shelf } from "../../files.ts";
import { repositoryPaths, shownPath } from "../paths.ts";
import type { Surroundings } from "../surroundings.ts";
import type { Report } from "./report.ts";
import { countOf, eachOnce } from "./report.ts";

export interface CheckedFiles {
  readonly report: Report;
  readonly problems: readonly ReadProblem[];
}

/** A site is let go of as soon as it is checked, so that thousands of them take no more memory than their findings. */
export function checkFiles(
  files: Iterable<FileId>,
  today: Day,
  around: Surroundings,
  { open, forget, problems }: Shelf = shelf(),
): CheckedFiles {
  const findings: Finding[] = [];
  const read = new Set<FileId>();
  const quoted = new Map<FileId, SourceFile>();
  const checked = new Set<FileId>();
  const across = new Across();
  const check = (root: FileId): void => {
    const site = loadSite(root, open);
    const sources = new Map(site.files.map(source => [source.file, source]));
    for (const file of sources.keys()) read.add(file);
    for (const finding of findingsOf(site, { today })) {
      findings.push({ ...finding, found: undefined });
      for (const { file } of [finding, ...finding.related]) {
        const source = sources.get(file);
        if (source) quoted.set(file, source);
      }
    }
    across.add(site);
    checked.add(root);
  };
  const outlines: SourceFile[] = [];
  for (const file of files) {
    const source = open(file);
    if (!source) continue;
    outlines.push(outlineOf(source));
    if (!isSite(source)) continue;
    check(file);
    forget(file);
  }
  for (const root of rootsOf(outlines)) if (!checked.has(root)) check(root);
  for (const finding of across.findings()) {
    findings.push(finding);
    for (const { file } of [finding, ...finding.related]) {
      const source = quoted.has(file) ? undefined : open(file);
      if (source) quoted.set(file, source);
    }
  }
  return { report: reportOf(findings, [...read], file => quoted.get(file), around), problems };
}

function isSite({ tree }: SourceFile): boolean {
  return tree.declarations.some(({ kind }) => kind === "site");
}

/** What says which files belong together, and nothing else of a file. */
function outlineOf({ file, tree, sealed }: SourceFile): SourceFile {
  const declarations = tree.declarations.filter(({ kind }) => kind === "site" || kind === "use");
  return { file, text: "", tree: { ...tree, declarations, comments: [] }, problems: [], ...(sealed && { sealed }) };
}

/** The report of one site that is already loaded and checked. */
export function reportOfSite(site: Site, findings: readonly Finding[], around: Surroundings): Report {
  const sources = new Map(site.files.map(source => [source.file, source]));
  return reportOf(findings, [...sources.keys()], file => sources.get(file), around);
}

function reportOf(found: readonly Finding[], files: readonly FileId[], source: Report["source"], around: Surroundings): Report {
  const findings = eachOnce(found);
  return {
    findings,
    files,
    errors: countOf(findings, "error"),
    warnings: countOf(findings, "warning"),
    source,
    shown: file => shownPath(file, around.cwd),
    machinePath: repositoryPaths(around.cwd),
    colour: around.colour,
  };
}

/** A fitted record that is named alone is read with the site that it belongs to. */
export function withCompanions(files: readonly FileId[], there: (file: FileId) => boolean = isThere): readonly FileId[] {
  const all = new Set(files);
  for (const file of files) {
    const site = siteOfRecord(file);
    if (site !== undefined) for (const each of [site, `${site}.age`]) if (there(each)) all.add(each);
  }
  return [...all];
}
