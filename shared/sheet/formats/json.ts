/** The run sheet for machines: a stable shape, to which fields may be added; what does not apply is absent. */
import { jsonText } from "../../json-text.ts";
import type { Format } from "../format.ts";
import type { BlankPattern, Sheet, SheetEntry, SheetGroup, SheetSession, Try } from "../shape.ts";

export const json: Format = {
  name: "json",
  extension: "json",
  render: sheets => jsonText({ site: sheets[0]?.site, keypads: sheets.map(keypadOf) }),
};

function keypadOf(sheet: Sheet): object {
  return {
    keypad: sheet.keypad,
    label: sheet.label,
    model: sheet.model,
    from: sheet.from === "fitted" ? undefined : sheet.from,
    number: sheet.number,
    date: sheet.date,
    commit: sheet.commit,
    before: sheet.before.map(({ kind, text, keys }) => ({ kind, text, keys: keys && keysOf(keys) })),
    sessions: sheet.sessions.map(sessionOf),
    tries: sheet.tries.map(tryOf),
    blanks: sheet.blanks.map(blankOf),
    counts: sheet.counts,
    seconds: Math.round(sheet.seconds * 10) / 10,
    minutes: sheet.minutes,
    proof: sheet.proof,
  };
}

function sessionOf(session: SheetSession): object {
  return {
    enter: keysOf(session.enter),
    enterShows: session.enterShows,
    enterNote: session.enterNote,
    entries: session.entries.map(entryOf),
    leave: keysOf(session.leave),
    leaveShows: session.leaveShows,
    leaveNote: session.leaveNote,
  };
}

function entryOf(entry: SheetEntry): object {
  return {
    n: entry.n,
    operation: entry.operation,
    keys: keysOf(entry.keys),
    relay: entry.relay,
    slot: entry.slot,
    holder: entry.holder,
    credential: entry.credential,
    shows: entry.shows,
    text: entry.text,
    repeatable: entry.repeatable,
    skippable: entry.skippable,
    needs: entry.needs.length === 0 ? undefined : entry.needs,
    because: entry.because,
    refusal: entry.refusal,
    lapse: entry.lapse,
  };
}

function tryOf(one: Try): object {
  return {
    text: `${one.who}: ${one.expect}`,
    keys: keysOf(one.keys),
    opens: one.opens,
    again: one.kind === "again" ? true : undefined,
    waitSeconds: one.waitSeconds,
  };
}

function blankOf(blank: BlankPattern): object {
  return { operation: blank.operation, keys: blank.parts.map(part => ("gap" in part ? `{${part.gap}}` : part.keys)), shows: blank.shows };
}

function keysOf(groups: readonly SheetGroup[]): readonly string[] {
  return groups.map(group => group.text);
}
