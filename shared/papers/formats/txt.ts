/** A paper as plain text, eighty columns wide, for any printer. */
import { columnsOf, wrapped } from "../../sheet/columns.ts";
import { spaced } from "../../sheet/remarks.ts";
import type { Paper, Part } from "../paper.ts";
import type { PaperFormat } from "./format.ts";

const width = 80;

export const txt: PaperFormat = {
  name: "txt",
  extension: "txt",
  render: papers => papers.map(text).join(`\n${"=".repeat(width)}\n\n`),
};

function text(paper: Paper): string {
  const lines = [
    ...said("", paper.title.toUpperCase()),
    ...said("", paper.about === undefined ? paper.site : `${paper.site}: ${paper.about}`),
    paper.date,
    "=".repeat(width),
    ...paper.parts.flatMap(partLines),
  ];
  return `${lines.join("\n")}\n`;
}

function partLines(part: Part): readonly string[] {
  switch (part.is) {
    case "heading":
      return ["", ...said("", part.text), "-".repeat(width)];
    case "words":
      return ["", ...said("", part.text)];
    case "caution":
      return ["", ...said("!! ", part.text)];
    case "facts":
      return part.facts.flatMap(([name, says]) => said(`${name}: `.padEnd(16), says));
    case "list":
      return part.items.flatMap(item => said(part.tick ? "[ ] " : "- ", item));
    case "table":
      return ["", ...table(part.tick ? ["", ...part.head] : part.head, part.tick ? part.rows.map(row => ["[ ]", ...row]) : part.rows)];
    case "way":
      return ["", ...said("", part.door), ...said("    ", spaced(part.keys)), ...part.says.flatMap(words => said("    ", words))];
    case "blanks":
      return part.blanks.flatMap(({ label, unit }) => [
        "",
        `${`${label}: `.padEnd(34, ".")} ____________________${unit === undefined ? "" : ` ${unit}`}`,
      ]);
    case "code":
      return ["", ...said("", part.label), "", `    ${[...part.text].join(" ")}`, ""];
    case "signatures":
      return ["", "", ...part.names.map(name => `${name}: ____________________`)];
    case "page":
      return ["", "=".repeat(width)];
  }
}

/** Words behind a beginning, later lines under the first. */
function said(beginning: string, words: string): readonly string[] {
  const room = Math.max(20, width - columnsOf(beginning));
  const [first = "", ...rest] = wrapped(words.split(" "), room);
  return [beginning + first, ...rest.map(line => " ".repeat(columnsOf(beginning)) + line)];
}

/** Columns as wide as they need to be, the widest cut down until the row fits; cells go on over several lines. */
function table(head: readonly string[], rows: readonly (readonly string[])[]): readonly string[] {
  const gap = 2;
  const widths = head.map((cell, at) => Math.max(columnsOf(cell), ...rows.map(row => Math.min(columnsOf(row[at] ?? ""), width))));
  const used = () => widths.reduce((sum, one) => sum + one, 0) + gap * (widths.length - 1);
  while (used() > width) {
    const widest = widths.indexOf(Math.max(...widths));
    const now = widths[widest] ?? 0;
    if (now <= 8) break;
    widths[widest] = now - 1;
  }
  const set = (row: readonly string[]) => {
    const cells = widths.map((wide, at) => wrapped((row[at] ?? "").split(" "), wide));
    const height = Math.max(1, ...cells.map(({ length }) => length));
    return Array.from({ length: height }, (_, index) =>
      cells
        .map((lines, at) => {
          const line = lines[index] ?? "";
          return line + " ".repeat(Math.max(0, (widths[at] ?? 0) - columnsOf(line)));
        })
        .join(" ".repeat(gap))
        .trimEnd(),
    );
  };
  return [...set(head), ...set(widths.map(wide => "-".repeat(wide))), ...rows.flatMap(set)];
}
