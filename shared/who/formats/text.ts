/** The table for a terminal: columns as wide as they must be. */
import { columnsOf } from "../../sheet/columns.ts";
import { whoColumns } from "../table.ts";
import type { WhoFormat } from "./index.ts";

export const text: WhoFormat = {
  name: "text",
  render({ site, date, rows, odds, notes }) {
    const lines = [whoColumns as readonly string[], ...rows.map(({ cells }) => cells)];
    const widths = whoColumns.map((_, column) => Math.max(...lines.map(line => columnsOf(line[column] ?? ""))));
    const drawn = lines.map(line =>
      line
        .map((cell, column) => cell + " ".repeat((widths[column] ?? 0) - columnsOf(cell)))
        .join("  ")
        .trimEnd(),
    );
    const table = rows.length === 0 ? ["Nobody opens anything that was asked for."] : drawn;
    return [`${site}: who opens what, ${date}`, "", ...table, "", ...odds, ...notes, ""].join("\n");
  },
};
