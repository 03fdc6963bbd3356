/** The table for a page on a Git host. */
import { markdownText } from "../../sheet/markdown-text.ts";
import { whoColumns } from "../table.ts";
import type { WhoFormat } from "./index.ts";

export const md: WhoFormat = {
  name: "md",
  render({ site, date, rows, odds, notes }) {
    const row = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
    return [
      `# ${markdownText(site)}: who opens what`,
      "",
      date,
      "",
      row(whoColumns),
      row(whoColumns.map(() => "---")),
      ...rows.map(({ cells }) => row(cells.map(markdownText))),
      "",
      ...odds.map(line => `- ${markdownText(line)}`),
      ...notes.map(line => `- ${markdownText(line)}`),
      "",
    ].join("\n");
  },
};
