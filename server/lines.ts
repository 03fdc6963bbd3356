/** Offsets of a text as lines and columns. */

/** Line and column from 1; the column counts UTF-16 units, as editors do. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

export interface Lines {
  readonly at: (offset: number) => Position;
  /** Where a line (from 1) begins and ends, its line break left out. */
  readonly span: (line: number) => { readonly start: number; readonly end: number };
  readonly count: number;
}

/** A line ends with LF, CR LF or CR, as editors see it. */
export function linesOf(text: string): Lines {
  const starts = [0];
  for (const found of text.matchAll(/\r\n?|\n/g)) starts.push(found.index + found[0].length);
  const startOf = (line: number): number => starts[line - 1] ?? text.length;
  return {
    count: starts.length,
    at: offset => {
      let low = 0;
      let high = starts.length - 1;
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (startOf(middle + 1) <= offset) low = middle;
        else high = middle - 1;
      }
      return { line: low + 1, column: offset - startOf(low + 1) + 1 };
    },
    span: line => {
      const start = startOf(line);
      let end = line < starts.length ? startOf(line + 1) : text.length;
      if (line < starts.length) end -= text.endsWith("\r\n", end) ? 2 : 1;
      return { start, end };
    },
  };
}
