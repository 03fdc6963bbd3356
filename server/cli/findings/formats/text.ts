/** Findings for a person: where, what, the line itself with carets under the place, and the places that belong to it. */
import pc from "picocolors";
import type { FileId, Finding, Severity } from "../../../../shared/finding.ts";
import { visible } from "../../../../shared/sheet/visible.ts";
import { excerptOf } from "../excerpt.ts";
import type { FindingFormat, Report } from "../report.ts";
import { countOf, lineIndex } from "../report.ts";
import type { Hidden } from "../secrets.ts";
import { secretsOf } from "../secrets.ts";

export const text: FindingFormat = {
  name: "text",
  render: async report => {
    const paint = pc.createColors(report.colour);
    const lines = lineIndex(report);
    const hidden = new Map<FileId, Hidden>();
    const hide = (file: FileId): Hidden => {
      const source = report.source(file);
      const known = hidden.get(file) ?? (source ? secretsOf(source) : () => false);
      hidden.set(file, known);
      return known;
    };
    const where = (file: FileId, offset: number): string => {
      const { line, column } = lines(file).at(offset);
      return `${visible(report.shown(file))}:${line}:${column}`;
    };
    const tint: Record<Severity, (text: string) => string> = {
      error: paint.red,
      warning: paint.yellow,
      information: paint.blue,
      hint: paint.dim,
    };
    const one = async (finding: Finding): Promise<string> => {
      const { severity, code, message, file, start } = finding;
      const written = [`${where(file, start)}  ${tint[severity](severity)}  ${paint.bold(visible(message))}  ${paint.dim(code)}`];
      const source = report.source(file);
      if (source) {
        const { number, line, carets } = await excerptOf(source.text, lines(file), finding, hide(file));
        const margin = String(number);
        written.push(`  ${paint.dim(`${margin} |`)} ${line}`, `  ${paint.dim(`${" ".repeat(margin.length)} |`)} ${tint[severity](carets)}`);
      }
      for (const other of finding.related) written.push(`    ${where(other.file, other.start)}  ${visible(other.message)}`);
      return `${written.map(line => line.trimEnd()).join("\n")}\n`;
    };
    const written: string[] = [];
    for (const finding of report.findings) written.push(await one(finding));
    return [...written, summary(report)].join("\n");
  },
};

/** `3 files checked: 1 error, 2 warnings, 1 note`. */
function summary({ findings, files, errors, warnings }: Report): string {
  const notes = countOf(findings, "information") + countOf(findings, "hint");
  const counted = [counting(errors, "error"), counting(warnings, "warning"), counting(notes, "note")].filter(said => !said.startsWith("0"));
  return `${counting(files.length, "file")} checked: ${counted.join(", ") || "nothing found"}\n`;
}

function counting(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}
