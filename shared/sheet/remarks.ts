/** What every printed sheet says in the same words: whether an entry may be repeated or skipped, totals, the end of the sheet. */
import type { Sheet, SheetEntry, SheetGroup } from "./shape.ts";

export const destroyWords = "Destroy this sheet after use.";
export const nothingToType = "Nothing to type: the keypad holds what the text wants.";

export function againWords(entry: SheetEntry): string {
  return entry.repeatable ? "Typing it again is harmless." : "Do not type it again once it was taken.";
}

export function skipWords(entry: SheetEntry): string {
  if (entry.skippable) return "May be skipped.";
  if (entry.operation === "set installer") return "May not be skipped: what follows is entered with the new installer code.";
  if (entry.neededBy.length === 0) return "May not be skipped.";
  return `May not be skipped: ${entriesWords(entry.neededBy)} ${entry.neededBy.length === 1 ? "needs" : "need"} it.`;
}

export function needsWords(entry: SheetEntry): string | undefined {
  return entry.needs.length === 0 ? undefined : `Only after ${entriesWords(entry.needs)}.`;
}

/** All that is said of an entry beside its keys, in one order. */
export function remarks(entry: SheetEntry): readonly string[] {
  return [entry.because, needsWords(entry), skipWords(entry), againWords(entry), entry.lapse].filter(words => words !== undefined);
}

export function totalsWords(sheet: Sheet): string {
  const { entries, keys } = sheet.counts;
  const minutes = sheet.minutes === 1 ? "1 minute" : `${sheet.minutes} minutes`;
  return `${plural(entries, "entry", "entries")}, ${plural(keys, "key", "keys")}, about ${minutes} (keys only, a practised hand; tries added)`;
}

export function moreTriesWords(sheet: Sheet): string | undefined {
  if (sheet.triesLeftOut === 0) return undefined;
  return `${plural(sheet.triesLeftOut, "more try is", "more tries are")} in the JSON sheet; these are one for each relay and the first and last of a session.`;
}

/** Said above the blank rows. */
export function relayWords(sheet: Sheet): string {
  return `For relay key: ${sheet.relayKeys.join("; ")}`;
}

export function dateWords(sheet: Sheet): string {
  return sheet.commit === undefined ? sheet.date : `${sheet.date}, commit ${sheet.commit}`;
}

/** The groups with one space between, as they are written in a model. */
export function spaced(groups: readonly SheetGroup[]): string {
  return groups.map(group => group.text).join(" ");
}

/** "entry 3", "entries 2 to 9, 12": runs of three and more are drawn together. */
export function entriesWords(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of [...numbers].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && last[1] === number - 1) last[1] = number;
    else runs.push([number, number]);
  }
  const words = runs.map(([from, to]) => (from === to ? `${from}` : to - from === 1 ? `${from}, ${to}` : `${from} to ${to}`));
  return `${numbers.length === 1 ? "entry" : "entries"} ${words.join(", ")}`;
}

function plural(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}
