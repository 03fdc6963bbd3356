/** The table for a spreadsheet. */
import { byteOrderMark, quotedCell } from "../../sheet/csv-cell.ts";
import { whoColumns } from "../table.ts";
import type { WhoFormat } from "./index.ts";

export const csv: WhoFormat = {
  name: "csv",
  render({ rows }) {
    const lines = [whoColumns as readonly string[], ...rows.map(({ cells }) => cells)];
    return `${byteOrderMark}${lines.map(line => line.map(quotedCell).join(",")).join("\r\n")}\r\n`;
  },
};
