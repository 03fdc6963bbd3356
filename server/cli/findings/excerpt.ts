/** The line of a finding as a terminal shows it, with carets under the place: right under wide, combined and invisible characters. */
import type { Span } from "../../../grammar/tree.ts";
import { visible } from "../../../shared/sheet/visible.ts";
import type { Lines } from "../../lines.ts";
import type { Hidden } from "./secrets.ts";

export interface Excerpt {
  /** The line's number, from 1. */
  readonly number: number;
  readonly line: string;
  readonly carets: string;
}

/** Columns to the next tab stop. */
const tabStop = 4;
/** UTF-16 units of a long line that are shown before the place and from its start on. */
const shownBefore = 60;
const shownAfter = 100;
const dot = "•";

/** @param hidden says which characters are shown as a dot */
export async function excerptOf(text: string, lines: Lines, place: Span, hidden: Hidden): Promise<Excerpt> {
  const { line: number } = lines.at(place.start);
  const whole = lines.span(number);
  const from = clusterStart(text, Math.max(whole.start, place.start - shownBefore), whole.start);
  const to = Math.min(whole.end, place.start + shownAfter);
  // A place that reaches over the line's end is marked to the end; an empty one has one caret.
  const end = Math.min(Math.max(place.end, place.start + 1), Math.max(to, place.start + 1));

  const stretch = text.slice(from, to);
  // Other scripts take a segmenter and tables of widths, which are slow to start and seldom needed.
  const { clustersIn, widthOf } = /^[\t\x20-\x7e]*$/.test(stretch) ? plain : await import("./clusters.ts");

  let line = from > whole.start ? "…" : "";
  let column = line.length;
  let first: number | undefined;
  let last = 0;
  for (const { index, cluster } of clustersIn(stretch)) {
    const start = from + index;
    const drawn = draw(cluster, column, hidden(start), start === 0);
    const width = widthOf(drawn);
    const touched = start < end && start + cluster.length > place.start;
    if (touched) {
      first ??= column;
      last = column + width;
    }
    line += drawn;
    column += width;
  }
  if (to < whole.end) line += "…";
  first ??= column;
  return { number, line, carets: " ".repeat(first) + "^".repeat(Math.max(1, last - first)) };
}

function draw(cluster: string, column: number, isHidden: boolean, atStart: boolean): string {
  if (isHidden) return dot;
  if (cluster === "\t") return " ".repeat(tabStop - (column % tabStop));
  if (atStart && cluster === "\ufeff") return "";
  return visible(cluster);
}

/** Does not begin inside a surrogate pair or before a combining mark. */
function clusterStart(text: string, from: number, lineStart: number): number {
  let at = from;
  while (at > lineStart && /[\udc00-\udfff\p{M}\u200d]/u.test(text.charAt(at))) at--;
  return at;
}

/** Every unit is a character of one column. */
const plain = {
  clustersIn: (stretch: string) => Array.from(stretch, (cluster, index) => ({ index, cluster })),
  widthOf: (drawn: string) => drawn.length,
};
