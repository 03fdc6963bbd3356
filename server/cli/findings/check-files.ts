/** Checks every site among some files once, and on their own the files that no site uses. */
import { findingsOf } from "../../../shared/checks/run.ts";
import type { FileId, Finding, SourceFile } from "../../../shared/finding.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { fittedCompanion } from "../../../shared/site/paths.ts";
import { rootsOf } from "../../../shared/site/roots.ts";
import type { Day, Site } from "../../../shared/site/site.ts";
import type { ReadProblem } from "../../files.ts";
import { isThere, shelf } from "../../files.ts";
import { repositoryPaths, shownPath } from "../paths.ts";
import type { Surroundings } from "../surroundings.ts";
import type { Report } from "./report.ts";
import { countOf, eachOnce } from "./report.ts";

export interface CheckedFiles {
  readonly report: Report;
  readonly problems: readonly ReadProblem[];
}

export function checkFiles(files: Iterable<FileId>, today: Day, around: Surroundings): CheckedFiles {
  const { open, problems } = shelf();
  const sources = [...files].map(open).filter(source => source !== undefined);
  const read = new Map<FileId, SourceFile>();
  const findings: Finding[] = [];
  for (const root of rootsOf(sources)) {
    const site = loadSite(root, open);
    for (const source of site.files) read.set(source.file, source);
    findings.push(...findingsOf(site, { today }));
  }
  return { report: reportOf(findings, read, around), problems };
}

/** The report of one site that is already loaded and checked. */
export function reportOfSite(site: Site, findings: readonly Finding[], around: Surroundings): Report {
  return reportOf(findings, new Map(site.files.map(source => [source.file, source])), around);
}

function reportOf(found: readonly Finding[], read: ReadonlyMap<FileId, SourceFile>, around: Surroundings): Report {
  const findings = eachOnce(found);
  return {
    findings,
    files: [...read.keys()],
    errors: countOf(findings, "error"),
    warnings: countOf(findings, "warning"),
    source: file => read.get(file),
    shown: file => shownPath(file, around.cwd),
    machinePath: repositoryPaths(around.cwd),
    colour: around.colour,
  };
}

/** A fitted record that is named alone is read with the site that it belongs to. */
export function withCompanions(files: readonly FileId[]): readonly FileId[] {
  const all = new Set(files);
  for (const file of files) {
    const site = file.replace(/\.fitted\.mullion$/, ".mullion");
    if (fittedCompanion(site) === file && isThere(site)) all.add(site);
  }
  return [...all];
}
