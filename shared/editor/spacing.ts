/** The formatter's result as the fewest and smallest edits: only blanks and line breaks between words are ever touched. */
import { blank } from "../../grammar/lines.ts";
import type { Span } from "../../grammar/tree.ts";

export interface SpacingEdit extends Span {
  readonly text: string;
}

/**
 * What has to be replaced in `before` to make it `after`.
 *
 * @returns undefined when the two differ in more than blanks and line breaks: then something would be lost or made up.
 */
export function spacingEdits(before: string, after: string): readonly SpacingEdit[] | undefined {
  const edits: SpacingEdit[] = [];
  let [at, other] = [0, 0];
  for (;;) {
    const end = afterBlanks(before, at);
    const otherEnd = afterBlanks(after, other);
    const text = after.slice(other, otherEnd);
    if (before.slice(at, end) !== text) edits.push(trimmed(before, at, end, text));
    [at, other] = [end, otherEnd];
    if (at === before.length && other === after.length) return edits;
    if (before[at] !== after[other]) return undefined;
    at++;
    other++;
  }
}

function afterBlanks(text: string, from: number): number {
  let at = from;
  while (at < text.length && blank.test(text[at] ?? "")) at++;
  return at;
}

/** Without what both begin and end with. A line break of two characters is never cut in two. */
function trimmed(before: string, start: number, end: number, text: string): SpacingEdit {
  let left = 0;
  while (left < end - start && left < text.length && before[start + left] === text[left]) left++;
  if (text[left - 1] === "\r" || before[start + left - 1] === "\r") left--;
  let right = 0;
  while (right < end - start - left && right < text.length - left && before[end - 1 - right] === text[text.length - 1 - right]) right++;
  if (before[end - right] === "\n" && (before[end - right - 1] === "\r" || text[text.length - right - 1] === "\r")) right--;
  return { start: start + left, end: end - right, text: text.slice(left, text.length - right) };
}
