/** What `check` found, ready to be written in any format. */
import type { FileId, Finding, Place, Severity, SourceFile } from "../../../shared/finding.ts";
import type { Lines } from "../../lines.ts";
import { linesOf } from "../../lines.ts";

export interface Report {
  /** Sorted by file and place, each once. */
  readonly findings: readonly Finding[];
  readonly files: readonly FileId[];
  readonly errors: number;
  readonly warnings: number;
  readonly source: (file: FileId) => SourceFile | undefined;
  /** The path for a person, and the path for a program. */
  readonly shown: (file: FileId) => string;
  readonly machinePath: (file: FileId) => string;
  readonly colour: boolean;
}

export interface FindingFormat {
  readonly name: string;
  readonly render: (report: Report) => string | Promise<string>;
}

/** Line and column of a finding's beginning and end, from 1; columns in UTF-16 units, the end exclusive. */
export interface Located {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** Finds lines and columns; each file is split into lines once. */
export function locator(report: Pick<Report, "source">): (place: Place) => Located {
  const lines = lineIndex(report);
  return place => {
    const index = lines(place.file);
    const { line, column } = index.at(place.start);
    const end = index.at(place.end);
    return { line, column, endLine: end.line, endColumn: end.column };
  };
}

export function lineIndex(report: Pick<Report, "source">): (file: FileId) => Lines {
  const known = new Map<FileId, Lines>();
  return file => {
    const index = known.get(file) ?? linesOf(report.source(file)?.text ?? "");
    known.set(file, index);
    return index;
  };
}

/** One finding for one place: a model that two sites use is found wrong twice and reported once. */
export function eachOnce(findings: Iterable<Finding>): readonly Finding[] {
  const kept = new Map<string, Finding>();
  for (const finding of findings) kept.set([finding.file, finding.start, finding.end, finding.code, finding.message].join("\n"), finding);
  return [...kept.values()].sort(
    (a, b) => order(a.file, b.file) || a.start - b.start || a.end - b.end || order(a.code, b.code) || order(a.message, b.message),
  );
}

export function countOf(findings: readonly Finding[], severity: Severity): number {
  return findings.filter(finding => finding.severity === severity).length;
}

function order(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
