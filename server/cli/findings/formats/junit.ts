/** Findings as a JUnit report, for build servers: a test case a file, failed by its errors. One document that both common schemas take. */
import { hostname } from "node:os";
import { visible } from "../../../../shared/sheet/visible.ts";
import { version } from "../../version.ts";
import type { FindingFormat } from "../report.ts";
import { locator } from "../report.ts";

export const junit: FindingFormat = {
  name: "junit",
  render: report => {
    const at = locator(report);
    const cases = report.files.map(file => {
      const found = report.findings.filter(finding => finding.file === file);
      const lines = found.map(finding => {
        const { line, column } = at(finding);
        return `${line}:${column} ${finding.severity} ${finding.code}: ${finding.message}`;
      });
      return { file, failed: found.some(({ severity }) => severity === "error"), lines };
    });
    const failures = cases.filter(({ failed }) => failed).length;
    const passing = cases
      .filter(({ failed }) => !failed)
      .flatMap(({ file, lines }) => lines.map(line => `${report.machinePath(file)}:${line}`));
    const suite = [
      ["name", "mullion check"],
      ["package", "mullion"],
      ["id", "0"],
      ["hostname", hostname().slice(0, 60) || "localhost"],
      // The schemas want it without a zone.
      ["timestamp", new Date().toISOString().slice(0, 19)],
      ["tests", String(cases.length)],
      ["failures", String(failures)],
      ["errors", "0"],
      ["time", "0"],
    ] as const;
    return [
      '<?xml version="1.0" encoding="UTF-8"?>',
      "<testsuites>",
      `  <testsuite ${suite.map(([name, value]) => `${name}="${attribute(value)}"`).join(" ")}>`,
      "    <properties>",
      `      <property name="version" value="${attribute(version)}"/>`,
      "    </properties>",
      ...cases.flatMap(({ file, failed, lines }) => {
        const opening = `    <testcase name="${attribute(report.machinePath(file))}" classname="mullion.check" time="0"`;
        if (!failed) return [`${opening}/>`];
        const message = `${lines.length} ${lines.length === 1 ? "finding" : "findings"}`;
        return [
          `${opening}>`,
          `      <failure message="${message}" type="error">${lines.map(content).join("\n")}</failure>`,
          "    </testcase>",
        ];
      }),
      `    <system-out>${passing.map(content).join("\n")}</system-out>`,
      "    <system-err></system-err>",
      "  </testsuite>",
      "</testsuites>",
      "",
    ].join("\n");
  },
};

function content(text: string): string {
  return visible(text).replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

function attribute(text: string): string {
  return content(text).replaceAll('"', "&quot;");
}
