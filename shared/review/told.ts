/** A review as words: the same sentences for every format that a person reads. */
import { capital } from "../capital.ts";
import type { Finding, Place } from "../finding.ts";
import { labelled, visible } from "../sheet/visible.ts";
import { baseName } from "../site/paths.ts";
import type { Day } from "../site/site.ts";
import { named } from "./keypads.ts";
import type { Review } from "./review.ts";
import { isEmpty } from "./review.ts";
import type { Work } from "./work.ts";

/** What the face knows and the review does not: paths, lines, names of what is compared. */
export interface Shown {
  /** "HEAD~2", "old.mullion". */
  readonly from: string;
  readonly date: Day;
  readonly path: (file: string) => string;
  /** Line and column from 1, in the new text. */
  readonly at: (place: Place) => { readonly line: number; readonly column: number };
}

export interface Told {
  readonly site: string;
  /** "Compared with HEAD~2, on 2026-11-25." */
  readonly compared: string;
  readonly sections: readonly { readonly title: string; readonly lines: readonly Line[] }[];
}

export interface Line {
  readonly text: string;
  /** `site.mullion:55:8`, where the line is about a place. */
  readonly place?: string;
  /** Of the finding or warning that the line gives. */
  readonly name?: string;
}

export function told(review: Review, shown: Shown): Told {
  const { before, after, people, keypads, work, warnings, found, settled } = review;
  const site = labelled(after.label ?? before.label ?? baseName(after.root));
  const compared = before.files.length === 0 ? `New since ${shown.from}` : `Compared with ${shown.from}`;
  const sections = [
    { title: "For people and doors", lines: people.map(({ text }) => ({ text })) },
    { title: "At the keypads", lines: keypads.map(({ text }) => ({ text })) },
    { title: "To be looked at", lines: warnings.map(({ code, message }) => ({ text: sentenceOf(message), name: code })) },
    { title: "To be typed", lines: workLines(work) },
    {
      title: "New findings",
      lines: [
        ...found.map(one => findingLine(one, shown)),
        ...(settled.length === 0
          ? []
          : [{ text: `${counted(settled.length, "finding")} of before ${settled.length === 1 ? "is" : "are"} settled.` }]),
      ],
    },
  ].filter(({ lines }) => lines.length > 0);
  return {
    site,
    compared: `${compared}, on ${shown.date}.`,
    sections: isEmpty(review)
      ? [{ title: "Nothing changes", lines: [{ text: "Nobody and no door is touched, and there is nothing to type for it." }] }]
      : sections,
  };
}

function findingLine(finding: Finding, { path, at }: Shown): Line {
  const { line, column } = at(finding);
  return { place: `${path(finding.file)}:${line}:${column}`, text: `${finding.severity}: ${visible(finding.message)}`, name: finding.code };
}

function workLines(work: readonly Work[]): readonly Line[] {
  const touched = work.filter(one => one.touched);
  const lines: Line[] = touched.map(one => ({ text: workWords(one) }));
  const total = touched.reduce((sum, { entries = 0 }) => sum + entries, 0);
  const minutes = touched.reduce((sum, { minutes: own = 0 }) => sum + own, 0);
  if (touched.length > 1 && total > 0)
    lines.push({
      text: `In all ${counted(total, "entry", "entries")}, about ${counted(minutes, "minute")} (keys only, a practised hand).`,
    });
  if (total > 0) lines.push({ text: "A keypad does what was typed into it last: what stands above is so when this has been typed." });
  return lines;
}

function workWords({ keypad, from, entries, keys = 0, minutes = 0, tags, why, waited }: Work): string {
  const at = named(keypad);
  if (entries === undefined) return `${at}: no sheet: ${why ?? ""}.`;
  if (entries === 0) return `${at}: nothing, the record says that it has been typed.`;
  const amount = `${counted(entries, "entry", "entries")}, ${counted(keys, "key")}, about ${counted(minutes, "minute")}`;
  const bring = tags.length === 0 ? "" : `; bring ${tags.map(tag => `tag ${labelled(tag)}`).join(", ")}`;
  return `${at}: ${amount}${bring}${startWords(from)}${waitedWords(waited)}.`;
}

function startWords(from: Work["from"]): string {
  if (from === "record") return "";
  return from === "factory" ? "; everything, from the factory" : "; supposing that the old text has been typed, since there is no record";
}

function waitedWords(waited: number | undefined): string {
  return waited === undefined || waited === 0 ? "" : `; ${counted(waited, "entry", "entries")} waited before this change`;
}

/** A message without its full stop as a sentence. */
function sentenceOf(message: string): string {
  return `${capital(message)}.`;
}

function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
