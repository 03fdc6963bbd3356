/** The run sheet in Markdown, as a Git host renders it. */

import type { Format } from "../format.ts";
import { codeSpan, markdownTable, markdownText } from "../markdown-text.ts";
import { dateWords, destroyWords, moreTriesWords, nothingToType, relayWords, remarks, totalsWords } from "../remarks.ts";
import type { BlankPattern, Sheet, SheetEntry, SheetGroup, SheetSession } from "../shape.ts";

const box = "☐";

export const md: Format = {
  name: "md",
  extension: "md",
  render: sheets => sheets.map(sheetText).join("\n---\n\n"),
};

function sheetText(sheet: Sheet): string {
  const blocks = [
    `# Run sheet ${sheet.number}`,
    `**${markdownText(sheet.site)}**: ${markdownText(sheet.label)}`,
    [
      `- Keypad: ${markdownText(sheet.keypad)}, model ${markdownText(sheet.model)} (${markdownText(sheet.modelLabel)})`,
      `- Starts from: ${markdownText(sheet.startWords)}`,
      `- Date: ${markdownText(dateWords(sheet))}`,
      `- To type: ${markdownText(sheet.sessions.length === 0 ? nothingToType : totalsWords(sheet))}`,
    ].join("\n"),
    ...(sheet.before.length === 0 ? [] : ["## Before you start", sheet.before.map(beforeLine).join("\n")]),
    ...sheet.sessions.flatMap(sessionBlocks),
    ...triesBlocks(sheet),
    "## Asked for at the door",
    ...(sheet.relayKeys.length === 0 ? [] : [markdownText(relayWords(sheet))]),
    markdownTable(["", "What", "For", "Keys", "Must be seen"], sheet.blanks.flatMap(blankRows)),
    "---",
    "Typed by: ________________ Signed: ________________ Date: ____________".replaceAll("_", "\\_"),
    `**${destroyWords}**`,
  ];
  return `${blocks.join("\n\n")}\n`;
}

function beforeLine(item: Sheet["before"][number]): string {
  return `- [ ] ${markdownText(item.text)}${item.keys ? ` ${keys(item.keys)}` : ""}`;
}

function sessionBlocks(session: SheetSession): readonly string[] {
  const refusals = [...new Set(session.entries.map(entry => entry.refusal))];
  return [
    `## Session ${session.number}`,
    ...(session.enterNote === undefined ? [] : [`**${markdownText(session.enterNote)}**`]),
    `Enter: ${keys(session.enter)}${seen(session.enterShows)}`,
    ...refusals.map(refusal => `If an entry is refused: ${markdownText(refusal)}.`),
    ...(session.entries.length === 0
      ? []
      : [markdownTable(["", "No.", "Slot", "Keys", "Must be seen", "What it does"], session.entries.map(entryRow))]),
    ...(session.leaveNote === undefined ? [] : [markdownText(session.leaveNote)]),
    ...(session.leave.length === 0 ? [] : [`Leave: ${keys(session.leave)}${seen(session.leaveShows)}`]),
  ];
}

function entryRow(entry: SheetEntry): readonly string[] {
  return [
    box,
    String(entry.n),
    entry.slot === undefined ? "" : `**${markdownText(entry.slot)}**`,
    keys(entry.keys),
    markdownText(entry.shows ?? ""),
    `${markdownText(entry.text)}. *${markdownText(remarks(entry).join(" "))}*`,
  ];
}

function triesBlocks(sheet: Sheet): readonly string[] {
  if (sheet.paperTries.length === 0) return [];
  const more = moreTriesWords(sheet);
  const rows = sheet.paperTries.map(one => [
    box,
    `${markdownText(one.who)}${one.kind === "again" ? ", once more" : ""}`,
    keys(one.keys),
    `${markdownText(one.expect)}${one.waitSeconds === undefined ? "" : `; wait ${one.waitSeconds} s before it`}`,
  ]);
  return [
    "## Tries",
    ...(sheet.pace === undefined ? [] : [markdownText(sheet.pace)]),
    markdownTable(["", "Key or present", "Keys", "Must happen"], rows),
    ...(more === undefined ? [] : [markdownText(more)]),
  ];
}

function blankRows(blank: BlankPattern): readonly (readonly string[])[] {
  const parts = blank.parts.map(part => ("gap" in part ? markdownText(`${part.gap}:${"_".repeat(part.width)}`) : codeSpan(part.keys)));
  const row = [box, markdownText(blank.text), "", parts.join(" "), markdownText(blank.shows ?? "")];
  return [row, row];
}

function seen(shows: string | undefined): string {
  return shows === undefined ? "" : `, must be seen: ${markdownText(shows)}`;
}

function keys(groups: readonly SheetGroup[]): string {
  return groups.map(group => codeSpan(group.text)).join(" ");
}
