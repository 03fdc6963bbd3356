/**
 * The run sheet for a spreadsheet, one row a step. Quoting by RFC 4180. A spreadsheet neither calculates anything in it nor
 * takes a slot or a code for a number: those cells begin with a word.
 */
import { byteOrderMark, quotedCell } from "../csv-cell.ts";
import type { Format } from "../format.ts";
import { againWords, destroyWords, needsWords, nothingToType, skipWords, spaced, totalsWords } from "../remarks.ts";
import type { Sheet, SheetGroup } from "../shape.ts";

const columns = [
  "sheet",
  "site",
  "keypad",
  "part",
  "session",
  "number",
  "done",
  "what",
  "door",
  "slot",
  "keys",
  "must be seen",
  "if refused",
  "again",
  "skip",
  "remarks",
  "holder",
  "credential",
] as const;
type Row = Partial<Record<(typeof columns)[number], string | number | undefined>>;

export const csv: Format = {
  name: "csv",
  extension: "csv",
  render(sheets) {
    const lines = [columns.map(quotedCell).join(",")];
    for (const sheet of sheets)
      for (const row of rowsOf(sheet)) {
        const all: Row = { sheet: sheet.number, site: sheet.site, keypad: sheet.label, ...row };
        lines.push(columns.map(column => cellOf(all[column])).join(","));
      }
    return `${byteOrderMark}${lines.join("\r\n")}\r\n`;
  },
};

function rowsOf(sheet: Sheet): readonly Row[] {
  const rows: Row[] = [
    { part: "sheet", what: `Starts from ${sheet.startWords}` },
    { part: "sheet", what: `Model ${sheet.model}, ${sheet.modelLabel}` },
    { part: "sheet", what: `Date ${sheet.date}` },
    ...(sheet.commit === undefined ? [] : [{ part: "sheet", what: `Commit ${sheet.commit}` }]),
    { part: "sheet", what: sheet.sessions.length === 0 ? nothingToType : totalsWords(sheet) },
    ...sheet.before.map(item => ({ part: "before", what: item.text, keys: item.keys && keysOf(item.keys) })),
  ];
  for (const session of sheet.sessions) {
    const within = { session: session.number };
    rows.push({ ...within, part: "enter", what: session.enterNote, keys: keysOf(session.enter), "must be seen": session.enterShows });
    for (const entry of session.entries)
      rows.push({
        ...within,
        part: "entry",
        number: entry.n,
        what: entry.text,
        door: entry.relayLabel,
        slot: entry.slot === undefined ? undefined : `slot ${entry.slot}`,
        keys: keysOf(entry.keys),
        "must be seen": entry.shows,
        "if refused": entry.refusal,
        again: againWords(entry),
        skip: skipWords(entry),
        remarks: [entry.because, needsWords(entry), entry.lapse].filter(words => words !== undefined).join(" "),
        holder: entry.holder,
        credential: entry.credential,
      });
    rows.push({ ...within, part: "leave", what: session.leaveNote, keys: keysOf(session.leave), "must be seen": session.leaveShows });
  }
  for (const one of sheet.tries)
    rows.push({
      part: "try",
      what: one.who,
      keys: keysOf(one.keys),
      "must be seen": one.expect,
      remarks: one.waitSeconds === undefined ? undefined : `Wait ${one.waitSeconds} s first.`,
    });
  for (const blank of sheet.blanks)
    rows.push({
      part: "blank",
      what: blank.text,
      keys: `key ${blank.parts.map(part => ("gap" in part ? `{${part.gap}}` : part.keys)).join(" ")}`,
      "must be seen": blank.shows,
    });
  rows.push({ part: "end", what: "Typed by, signed, date" }, { part: "end", what: destroyWords });
  return rows;
}

/** Begins with a word, so that `0042` keeps its zeros. */
function keysOf(groups: readonly SheetGroup[]): string | undefined {
  return groups.length === 0 ? undefined : `key ${spaced(groups)}`;
}

function cellOf(value: string | number | undefined): string {
  if (value === undefined) return quotedCell("");
  return typeof value === "number" ? String(value) : quotedCell(value);
}
