/** The run sheet on pages: the same words and keys as every other form of it. */
import { dateWords, destroyWords, moreTriesWords, nothingToType, relayWords, remarks, totalsWords } from "../../shared/sheet/remarks.ts";
import type { BeforeItem, BlankPattern, Sheet, SheetEntry, SheetSession, Try } from "../../shared/sheet/shape.ts";
import type { Bound } from "./pages.ts";
import type { Piece } from "./pieces.ts";
import { barred, columns, framed, gap, heading, keys, pattern, rule, stack, ticked, words } from "./pieces.ts";

export function sheetPages(sheet: Sheet): Bound {
  return {
    left: `${sheet.site}: ${sheet.label}`,
    right: `Run sheet ${sheet.number}`,
    blocks: [
      head(sheet),
      ...before(sheet),
      ...sheet.sessions.flatMap(session),
      ...tries(sheet),
      ...blanks(sheet),
      stack([gap(10), barred(destroyWords), gap(26), signature()]),
    ],
  };
}

function head(sheet: Sheet): Piece {
  const fact = (name: string, says: string) =>
    columns([
      { share: 1, parts: [words(name)] },
      { share: 6, parts: [words(says)] },
    ]);
  return stack([
    words(`Run sheet ${sheet.number}`, { size: 18, bold: true, after: 1 }),
    words(`${sheet.site}: ${sheet.label}`, { size: 11, bold: true, after: 4 }),
    fact("Keypad", `${sheet.keypad}, model ${sheet.model} (${sheet.modelLabel})`),
    fact("Starts from", sheet.startWords),
    fact("Date", dateWords(sheet)),
    fact("To type", sheet.sessions.length === 0 ? nothingToType : totalsWords(sheet)),
  ]);
}

function before(sheet: Sheet): readonly Piece[] {
  const [first, ...others] = sheet.before.map(beforeItem);
  return first === undefined ? [] : [stack([...heading("Before you start"), first]), ...others];
}

function beforeItem(item: BeforeItem): Piece {
  const said = item.kind === "caution" ? barred(item.text) : ticked(item.text, { after: 3 });
  return item.keys === undefined ? said : stack([said, keys(item.keys)]);
}

function session(one: SheetSession): readonly Piece[] {
  const enter = stack([
    ...heading(`Session ${one.number}`),
    words("Enter programming mode", { bold: true }),
    ...(one.enterNote === undefined ? [] : [barred(one.enterNote)]),
    keys(one.enter),
    ...seen(one.enterShows),
    rule(),
  ]);
  const leave = stack([
    words("Leave programming mode", { bold: true }),
    ...(one.leaveNote === undefined ? [] : [barred(one.leaveNote)]),
    keys(one.leave),
    ...seen(one.leaveShows),
    rule(),
  ]);
  return [enter, ...one.entries.map(entry), leave];
}

function entry(one: SheetEntry): Piece {
  const left = [ticked(`${one.n}   ${one.text}`, { size: 10.5, bold: true, after: 3 }), keys(one.keys)];
  const right = one.slot === undefined ? [] : [framed("slot", one.slot)];
  return stack([
    gap(2),
    columns([
      { share: 6, parts: left },
      { share: 1, parts: right },
    ]),
    columns([seen(one.shows), [words(`Refused: ${one.refusal}.`)]].filter(parts => parts.length > 0).map(parts => ({ share: 1, parts }))),
    words(remarks(one).join(" ")),
    rule(),
  ]);
}

function tries(sheet: Sheet): readonly Piece[] {
  const more = moreTriesWords(sheet);
  const [first, ...others] = sheet.paperTries.map(tryBlock);
  if (first === undefined) return [];
  const pace = sheet.pace === undefined ? [] : [barred(sheet.pace)];
  return [stack([...heading("Tries"), ...pace, first]), ...others, ...(more === undefined ? [] : [words(more)])];
}

function tryBlock(one: Try): Piece {
  const wait = one.waitSeconds === undefined ? [] : [barred(`Wait ${one.waitSeconds} s first.`)];
  return stack([
    gap(2),
    ticked(`Try: ${one.who}${one.kind === "again" ? ", once more" : ""}`, { bold: true }),
    ...wait,
    columns([
      { share: 1, parts: [keys(one.keys)] },
      { share: 1, parts: [words("Must happen:", { size: 8, after: 0 }), words(one.expect, { bold: true })] },
    ]),
    rule(),
  ]);
}

function blanks(sheet: Sheet): readonly Piece[] {
  const rows = sheet.blanks.flatMap(blank => [blankRow(blank), blankRow(blank)]);
  const [first, ...others] = rows.flatMap((row, index) => (index % 2 === 0 ? [pairOf(row, rows[index + 1])] : []));
  if (first === undefined) return [];
  const relays = sheet.relayKeys.length === 0 ? [] : [words(relayWords(sheet), { after: 4 })];
  return [stack([...heading("Asked for at the door"), ...relays, first]), ...others];
}

function pairOf(left: Piece, right: Piece | undefined): Piece {
  return columns(
    [
      { share: 1, parts: [left] },
      { share: 1, parts: right ? [right] : [] },
    ],
    18,
  );
}

function blankRow(blank: BlankPattern): Piece {
  return stack([ticked(`${blank.text}, for ____________________`), pattern(blank.parts), ...seen(blank.shows), gap(4)]);
}

function seen(shows: string | undefined): readonly Piece[] {
  return shows === undefined ? [] : [words(`Must be seen: ${shows}`, { bold: true })];
}

export function signature(names: readonly string[] = ["Typed by", "Signed", "Date"]): Piece {
  return columns(
    names.map(name => ({ share: 1, parts: [rule(), words(name)] })),
    18,
  );
}
