/** The table for a terminal: columns as wide as they must be. */
import { drawnTable } from "../../sheet/drawn-table.ts";
import { whoColumns } from "../table.ts";
import type { WhoFormat } from "./index.ts";

export const text: WhoFormat = {
  name: "text",
  render({ site, date, rows, odds, notes }) {
    const lines = [whoColumns as readonly string[], ...rows.map(({ cells }) => cells)];
    const table = rows.length === 0 ? ["Nobody opens anything that was asked for."] : drawnTable(lines);
    return [`${site}: who opens what, ${date}`, "", ...table, "", ...odds, ...notes, ""].join("\n");
  },
};
