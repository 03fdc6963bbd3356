/** Findings as a SARIF 2.1.0 log (OASIS), for code hosts that show them beside a change. No code stands in it, fingerprints included. */

import { checks } from "../../../../shared/checks/index.ts";
import type { Finding, Severity } from "../../../../shared/finding.ts";
import { jsonText } from "../../../../shared/json-text.ts";
import { version } from "../../version.ts";
import type { FindingFormat, Report } from "../report.ts";
import { locator } from "../report.ts";

/** SARIF knows no hint. */
const levels: Readonly<Record<Severity, "error" | "warning" | "note">> = {
  error: "error",
  warning: "warning",
  information: "note",
  hint: "note",
};

export const sarif: FindingFormat = {
  name: "sarif",
  render: async report => {
    // Loaded here: every other format would wait for it.
    const { createHash } = await import("node:crypto");
    const codes = [...new Set(report.findings.map(({ code }) => code))].sort();
    const at = locator(report);
    const location = (place: { readonly file: string; readonly start: number; readonly end: number }) => {
      const { line, column, endLine, endColumn } = at(place);
      return {
        artifactLocation: { uri: encodeURI(report.machinePath(place.file)) },
        region: { startLine: line, startColumn: column, endLine, endColumn },
      };
    };
    const fingerprint = fingerprints(report, text => createHash("sha256").update(text).digest("hex"));
    const log = {
      $schema: "https://json.schemastore.org/sarif-2.1.0.json",
      version: "2.1.0",
      runs: [
        {
          tool: {
            driver: {
              name: "mullion",
              version,
              rules: codes.map(code => {
                const what = checks.find(check => check.code === code)?.explain.what;
                return { id: code, ...(what === undefined ? {} : { shortDescription: { text: what } }) };
              }),
            },
          },
          columnKind: "utf16CodeUnits",
          results: report.findings.map(finding => ({
            ruleId: finding.code,
            ruleIndex: codes.indexOf(finding.code),
            level: levels[finding.severity],
            message: { text: finding.message },
            locations: [{ physicalLocation: location(finding) }],
            ...(finding.related.length === 0
              ? {}
              : {
                  relatedLocations: finding.related.map((other, index) => ({
                    id: index + 1,
                    physicalLocation: location(other),
                    message: { text: other.message },
                  })),
                }),
            partialFingerprints: { "mullion/v1": fingerprint(finding) },
          })),
        },
      ],
    };
    return jsonText(log);
  },
};

/** Stays the same when lines move: the file, the finding and its words, and the how-manieth of those it is. */
function fingerprints(report: Report, digest: (text: string) => string): (finding: Finding) => string {
  const met = new Map<string, number>();
  return finding => {
    const said = [report.machinePath(finding.file), finding.code, finding.message].join("\n");
    const before = met.get(said) ?? 0;
    met.set(said, before + 1);
    return digest(`${said}\n${before}`).slice(0, 32);
  };
}
