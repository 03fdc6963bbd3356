/** A table for a terminal: columns as wide as they must be, two blanks between them. */
import { columnsOf } from "./columns.ts";

/** @param lines of equally many cells, the headings first. Returns a line of text for each. */
export function drawnTable(lines: readonly (readonly string[])[]): readonly string[] {
  const widths = (lines[0] ?? []).map((_, column) => lines.reduce((most, line) => Math.max(most, columnsOf(line[column] ?? "")), 0));
  return lines.map(line =>
    line
      .map((cell, column) => cell + " ".repeat((widths[column] ?? 0) - columnsOf(cell)))
      .join("  ")
      .trimEnd(),
  );
}
