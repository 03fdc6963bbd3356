/** A text with edits made. */
import { must } from "./must.ts";

/**
 * @param edits of this one text, in any order; two that overlap are a fault
 * @throws BrokenInvariant where edits overlap or lie outside the text
 */
export function edited(text: string, edits: readonly { readonly start: number; readonly end: number; readonly text: string }[]): string {
  const ordered = [...edits].sort((one, other) => one.start - other.start || one.end - other.end);
  let result = "";
  let at = 0;
  for (const edit of ordered) {
    must(edit.start >= at && edit.end >= edit.start && edit.end <= text.length, "edits lie inside the text and do not overlap");
    result += text.slice(at, edit.start) + edit.text;
    at = edit.end;
  }
  return result + text.slice(at);
}
