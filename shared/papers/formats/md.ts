/** A paper in Markdown, as a Git host renders it. */
import { codeSpan, markdownTable, markdownText } from "../../sheet/markdown-text.ts";
import type { Paper, Part } from "../paper.ts";
import type { PaperFormat } from "./format.ts";

export const md: PaperFormat = {
  name: "md",
  extension: "md",
  render: papers => papers.map(text).join("\n---\n\n"),
};

function text(paper: Paper): string {
  const about = paper.about === undefined ? "" : `: ${markdownText(paper.about)}`;
  const head = [`# ${markdownText(paper.title)}`, `**${markdownText(paper.site)}**${about}`, paper.date];
  return `${[...head, ...paper.parts.flatMap(partBlocks)].join("\n\n")}\n`;
}

const line = "\\_".repeat(16);

function partBlocks(part: Part): readonly string[] {
  switch (part.is) {
    case "heading":
      return [`## ${markdownText(part.text)}`];
    case "words":
      return [markdownText(part.text)];
    case "caution":
      return [`**${markdownText(part.text)}**`];
    case "facts":
      return [part.facts.map(([name, says]) => `- ${markdownText(name)}: ${markdownText(says)}`).join("\n")];
    case "list":
      return [part.items.map(item => `- ${part.tick ? "[ ] " : ""}${markdownText(item)}`).join("\n")];
    case "table": {
      const rows = part.rows.map(row => row.map(markdownText));
      return [
        part.tick
          ? markdownTable(
              ["", ...part.head],
              rows.map(row => ["☐", ...row]),
            )
          : markdownTable(part.head, rows),
      ];
    }
    case "way":
      return [
        `## ${markdownText(part.door)}`,
        part.keys.map(group => codeSpan(group.text)).join(" "),
        part.says.map(words => `- ${markdownText(words)}`).join("\n"),
      ];
    case "blanks":
      return [part.blanks.map(({ label, unit }) => `- ${markdownText(label)}: ${line}${unit === undefined ? "" : ` ${unit}`}`).join("\n")];
    case "code":
      return [markdownText(part.label), `# ${codeSpan(part.text)}`];
    case "signatures":
      return [part.names.map(name => `${markdownText(name)}: ${line}`).join(" ")];
    case "page":
      return ["---"];
  }
}
