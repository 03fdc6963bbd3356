/** Merge conflict markers: the first side is read, the other is not. */
import type { Problem } from "./tree.ts";

interface Line {
  readonly start: number;
  /** Behind the line break. */
  readonly end: number;
}

interface Marker extends Line {
  readonly sign: "<" | "|" | "=" | ">";
}

/**
 * Blanks out the markers of every conflict and all sides but the first, so that every offset stays right.
 *
 * @returns the text to read, and one problem for each conflict.
 */
export function withoutConflicts(text: string): { text: string; problems: Problem[] } {
  const markers = text.includes("<<<<<<<") || text.includes("=======") || text.includes(">>>>>>>") ? markersOf(text) : [];
  if (markers.length === 0) return { text, problems: [] };
  const problems: Problem[] = [];
  const unread: Line[] = [];
  for (let index = 0; index < markers.length; index++) {
    const first = markers[index] as Marker;
    const close = closing(markers, index);
    if (close < 0) {
      // Nothing says where the other side ends, so only the marker is left out.
      unread.push(first);
      problems.push(conflict(first, first, "a merge conflict marker without the rest of its conflict"));
      continue;
    }
    const members = markers.slice(index, close + 1);
    const last = members[members.length - 1] as Marker;
    const turn = members.find(marker => marker.sign !== "<") as Marker;
    if (first.sign === "<") unread.push(first);
    unread.push({ start: turn.start, end: last.end });
    problems.push(conflict(first, turn, "a merge conflict: the first side is read, the other is not"));
    index = close;
  }
  return { text: blanked(text, unread), problems };
}

function conflict(first: Line, turn: Line, message: string): Problem {
  const related = turn === first ? undefined : [{ start: turn.start, end: turn.start + 7, message: "the side that is not read" }];
  return { code: "merge-conflict", start: first.start, end: first.start + 7, message, related };
}

/** The `>>>>>>>` that ends the conflict beginning at a marker, or -1 when another begins before or none follows. */
function closing(markers: readonly Marker[], from: number): number {
  const first = markers[from] as Marker;
  if (first.sign === ">") return from;
  let turned = first.sign !== "<";
  for (let index = from + 1; index < markers.length; index++) {
    const sign = markers[index]?.sign;
    if (sign === "<") return -1;
    if (sign === ">") return turned ? index : -1;
    turned = true;
  }
  return -1;
}

/** Lines that are a marker as git writes it: seven signs at the very beginning, then a blank or nothing. */
function markersOf(text: string): Marker[] {
  const markers: Marker[] = [];
  for (const match of text.matchAll(/(?<![^\r\n])(<{7}|\|{7}|={7}|>{7})(?=[ \t\r\n]|$)[^\r\n]*(?:\r\n|\r|\n|$)/g)) {
    const sign = (match[0] as string)[0] as Marker["sign"];
    markers.push({ sign, start: match.index, end: match.index + match[0].length });
  }
  return markers;
}

function blanked(text: string, unread: readonly Line[]): string {
  let result = "";
  let at = 0;
  for (const { start, end } of unread) {
    result += text.slice(at, start) + text.slice(start, end).replace(/[^\r\n]/g, " ");
    at = end;
  }
  return result + text.slice(at);
}
