/** Findings as workflow commands, which a code host shows as annotations of the changed lines. */
import { visible } from "../../../../shared/sheet/visible.ts";
import type { FindingFormat } from "../report.ts";
import { locator } from "../report.ts";

const commands = { error: "error", warning: "warning", information: "notice", hint: "notice" } as const;

export const github: FindingFormat = {
  name: "github",
  render: report => {
    const at = locator(report);
    return report.findings
      .map(finding => {
        const { line, column, endLine, endColumn } = at(finding);
        // A column is only understood within one line.
        const columns = endLine === line ? { col: column, endColumn: Math.max(column, endColumn - 1) } : {};
        const properties = Object.entries({ file: report.machinePath(finding.file), line, endLine, ...columns, title: finding.code })
          .map(([name, value]) => `${name}=${property(String(value))}`)
          .join(",");
        return `::${commands[finding.severity]} ${properties}::${data(visible(finding.message))}\n`;
      })
      .join("");
  },
};

/** What would end the line or be read as an escape. */
function data(text: string): string {
  return text.replaceAll("%", "%25").replaceAll("\r", "%0D").replaceAll("\n", "%0A");
}

function property(text: string): string {
  return data(text).replaceAll(":", "%3A").replaceAll(",", "%2C");
}
