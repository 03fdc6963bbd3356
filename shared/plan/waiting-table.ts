/** The list of what waits to be typed as words: the same cells for the terminal, the spreadsheet and the editor. */
import { markdownTable, markdownText } from "../sheet/markdown-text.ts";
import { labelled } from "../sheet/visible.ts";
import type { Waiting } from "./waiting.ts";

export const waitingColumns = ["site", "keypad", "record", "to type", "minutes", "bring"] as const;

export function waitingCells({ site, keypad, fitted, entries, minutes, tags, why }: Waiting): readonly string[] {
  return [
    labelled(site),
    `${keypad.id} ${labelled(keypad.label)}`,
    fitted ?? (keypad.fitted ? "unknown" : "none"),
    entries === undefined ? `no sheet: ${why ?? ""}` : entries === 0 ? "nothing" : String(entries),
    entries ? String(minutes ?? "") : "",
    tags.map(tag => `tag ${labelled(tag)}`).join(", "),
  ];
}

/** Keypads with something to type, or without a sheet. */
export function stillWaiting<Row extends Waiting>(rows: readonly Row[]): readonly Row[] {
  return rows.filter(({ entries }) => entries !== 0);
}

/** "9 entries at 1 of 3 keypads, about 2 min (keys only, a practised hand)", or that nothing waits. */
export function waitingTotal(rows: readonly Waiting[]): string {
  const keypads = rows.length === 1 ? "keypad" : "keypads";
  const waiting = stillWaiting(rows);
  if (waiting.length === 0) return `Nothing waits to be typed at ${rows.length} ${keypads}.`;
  const entries = waiting.reduce((sum, row) => sum + (row.entries ?? 0), 0);
  const minutes = waiting.reduce((sum, row) => sum + (row.entries ? (row.minutes ?? 0) : 0), 0);
  const held = rows.filter(row => row.entries === undefined).length;
  const total = `${entries} ${entries === 1 ? "entry" : "entries"} at ${waiting.length - held} of ${rows.length} ${keypads}`;
  const without = held === 0 ? "" : `; ${held} ${held === 1 ? "has" : "have"} no sheet`;
  return `${total}, about ${minutes} min (keys only, a practised hand)${without}`;
}

export function waitingMarkdown(rows: readonly Waiting[]): string {
  const waiting = stillWaiting(rows);
  const table =
    waiting.length === 0
      ? []
      : [
          markdownTable(
            waitingColumns,
            waiting.map(row => waitingCells(row).map(markdownText)),
          ),
        ];
  return `${["# What waits to be typed", ...table, markdownText(waitingTotal(rows))].join("\n\n")}\n`;
}
