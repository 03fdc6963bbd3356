/** Findings for programs: one object, stable, fields may be added. */
import { jsonText } from "../../../../shared/json-text.ts";
import type { FindingFormat } from "../report.ts";
import { locator } from "../report.ts";

export const json: FindingFormat = {
  name: "json",
  render: report => {
    const at = locator(report);
    const findings = report.findings.map(({ severity, code, message, related, ...place }) => ({
      file: report.machinePath(place.file),
      ...at(place),
      severity,
      code,
      message,
      related: related.map(other => {
        const { line, column } = at(other);
        return { file: report.machinePath(other.file), line, column, message: other.message };
      }),
    }));
    const { files, errors, warnings } = report;
    return jsonText({ findings, files: files.length, errors, warnings });
  },
};
