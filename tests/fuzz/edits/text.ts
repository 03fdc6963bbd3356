/** A text as an editor holds it, kept apart from the server's own: lines, positions in UTF-16 units, and what typing does to it. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** Offsets where lines begin; a line ends with `\r\n`, `\n` or `\r`. */
function lineStarts(text: string): readonly number[] {
  return [0, ...[...text.matchAll(/\r\n|\n|\r/g)].map(({ 0: end, index }) => index + end.length)];
}

export function positionAt(text: string, offset: number): Position {
  const starts = lineStarts(text);
  let line = 0;
  while ((starts[line + 1] ?? Number.POSITIVE_INFINITY) <= offset) line++;
  // Between the two halves of a line end, the end of the line is meant.
  const end = lineEnd(text, starts, line);
  return { line, character: Math.min(offset, end) - (starts[line] ?? 0) };
}

/** A position beyond a line's end is its end; one beyond the text is the text's. */
export function offsetAt(text: string, { line, character }: Position): number {
  const starts = lineStarts(text);
  if (line < 0) return 0;
  const start = starts[line];
  if (start === undefined) return text.length;
  return Math.max(start, Math.min(start + character, lineEnd(text, starts, line)));
}

function lineEnd(text: string, starts: readonly number[], line: number): number {
  const next = starts[line + 1];
  if (next === undefined) return text.length;
  return text[next - 1] === "\n" && text[next - 2] === "\r" && next - 2 >= (starts[line] ?? 0) ? next - 2 : next - 1;
}

/** What is wrong with a range of this text; undefined where it is one. */
export function wrongRange(text: string, { start, end }: Range): string | undefined {
  const exact = (at: Position) => {
    const back = positionAt(text, offsetAt(text, at));
    return back.line === at.line && back.character === at.character;
  };
  if (!exact(start) || !exact(end)) return `a range to ${end.line}:${end.character} is not one of the text`;
  return offsetAt(text, start) <= offsetAt(text, end) ? undefined : "a range ends before it begins";
}

/** Edits that do not overlap, all about the text as it was. */
export function withEdits(text: string, edits: readonly { readonly range: Range; readonly newText: string }[]): string {
  const placed = edits.map(({ range, newText }) => ({ start: offsetAt(text, range.start), end: offsetAt(text, range.end), newText }));
  let [out, at] = ["", 0];
  for (const { start, end, newText } of placed.sort((one, other) => one.start - other.start || one.end - other.end)) {
    if (start < at) throw new Error("edits overlap");
    out += text.slice(at, start) + newText;
    at = end;
  }
  return out + text.slice(at);
}
