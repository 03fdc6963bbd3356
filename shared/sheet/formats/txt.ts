/** The run sheet as plain text, eighty columns wide, for any printer. */
import { columnsOf, wrapped } from "../columns.ts";
import type { Format } from "../format.ts";
import { dateWords, destroyWords, moreTriesWords, nothingToType, relayWords, remarks, totalsWords } from "../remarks.ts";
import type { BlankPattern, Sheet, SheetEntry, SheetGroup, SheetSession, Try } from "../shape.ts";

const width = 80;
/** Columns before what a row says of itself: room for the box and a number of four digits. */
const indent = 10;
const box = "[ ]";

export const txt: Format = {
  name: "txt",
  extension: "txt",
  render: sheets => sheets.map(sheetText).join(`\n${"=".repeat(width)}\n\n`),
};

function sheetText(sheet: Sheet): string {
  const lines = [
    ...said("", `RUN SHEET ${sheet.number}`),
    ...said("", `${sheet.site}: ${sheet.label}`),
    "=".repeat(width),
    ...fact("keypad", `${sheet.keypad}, model ${sheet.model} (${sheet.modelLabel})`),
    ...fact("from", sheet.startWords),
    ...fact("date", dateWords(sheet)),
    ...fact("to type", sheet.sessions.length === 0 ? nothingToType : totalsWords(sheet)),
    ...part("BEFORE YOU START"),
    ...sheet.before.flatMap(item => [...said(`${box} `, item.text), ...(item.keys ? keys(item.keys) : [])]),
    ...sheet.sessions.flatMap(session => sessionLines(session)),
    ...triesLines(sheet),
    ...part("ASKED FOR AT THE DOOR"),
    ...(sheet.relayKeys.length === 0 ? [] : said("", relayWords(sheet))),
    ...sheet.blanks.flatMap(blankLines),
    "",
    "-".repeat(width),
    "Typed by ____________________  Signed ____________________  Date ____________",
    destroyWords,
  ];
  return `${lines.join("\n")}\n`;
}

function sessionLines(session: SheetSession): readonly string[] {
  return [
    ...part(`SESSION ${session.number}`),
    ...(session.enterNote === undefined ? [] : said("", session.enterNote)),
    ...fact("enter", session.enter),
    ...(session.enterShows === undefined ? [] : fact("see", session.enterShows)),
    ...session.entries.flatMap(entryLines),
    "",
    ...(session.leaveNote === undefined ? [] : said("", session.leaveNote)),
    ...(session.leave.length === 0 ? [] : fact("leave", session.leave)),
    ...(session.leaveShows === undefined ? [] : fact("see", session.leaveShows)),
  ];
}

function entryLines(entry: SheetEntry): readonly string[] {
  const slot = entry.slot === undefined ? "" : `SLOT ${entry.slot}`;
  const head = `${box} ${String(entry.n).padEnd(4)}`;
  const room = slot === "" ? width : width - columnsOf(slot) - 2;
  const [first = "", ...rest] = said(head.padEnd(indent), entry.text, room);
  const gap = " ".repeat(Math.max(width - columnsOf(first) - columnsOf(slot), 0));
  return [
    "",
    slot === "" ? first : `${first}${gap}${slot}`,
    ...rest,
    ...fact("keys", entry.keys),
    ...(entry.shows === undefined ? [] : fact("see", entry.shows)),
    ...fact("refused", entry.refusal),
    ...said(" ".repeat(indent), remarks(entry).join(" ")),
  ];
}

function triesLines(sheet: Sheet): readonly string[] {
  if (sheet.paperTries.length === 0) return [];
  const more = moreTriesWords(sheet);
  return [
    ...part("TRIES"),
    ...(sheet.pace === undefined ? [] : said("", sheet.pace)),
    ...sheet.paperTries.flatMap(tryLines),
    ...(more === undefined ? [] : ["", ...said("", more)]),
  ];
}

function tryLines(one: Try): readonly string[] {
  const wait = one.waitSeconds === undefined ? [] : said("", `Wait ${one.waitSeconds} s.`);
  const again = one.kind === "again" ? ", once more" : "";
  return ["", ...wait, ...said(`${box} `.padEnd(indent), `${one.who}${again}: ${one.expect}`), ...fact("keys", one.keys)];
}

function blankLines(blank: BlankPattern): readonly string[] {
  const parts = blank.parts.map(part => ("gap" in part ? `${part.gap}:${"_".repeat(part.width)}` : part.keys));
  const row = (): readonly string[] => [
    "",
    ...said(`${box} `.padEnd(indent), `${blank.text}, for ______________________________`),
    ...rowOf("pattern", parts, "  "),
    ...(blank.shows === undefined ? [] : fact("see", blank.shows)),
  ];
  return [...row(), ...row()];
}

function part(title: string): readonly string[] {
  return ["", title, "-".repeat(width)];
}

function keys(groups: readonly SheetGroup[]): readonly string[] {
  return fact("keys", groups);
}

/** A named line: groups of keys keep two spaces between them and are not broken. */
function fact(name: string, says: string | readonly SheetGroup[]): readonly string[] {
  if (typeof says === "string") return rowOf(name, says.split(" "), " ");
  return rowOf(
    name,
    says.map(group => group.text),
    "  ",
  );
}

function rowOf(name: string, words: readonly string[], gap: string): readonly string[] {
  const lines = wrapped(words, width - indent, gap);
  return lines.map((line, index) => (index === 0 ? `  ${name}`.padEnd(indent) : " ".repeat(indent)) + line);
}

/** A sentence behind its head; further lines stand under the first. */
function said(head: string, words: string, room = width): readonly string[] {
  const lines = wrapped(words.split(" "), room - head.length);
  return lines.map((line, index) => (index === 0 ? head : " ".repeat(head.length)) + line);
}
