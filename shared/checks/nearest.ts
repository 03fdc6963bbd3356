/** The name that was probably meant: the nearest of those that there are. */

/**
 * @returns the known name that takes the fewest letters put in, left out, changed or swapped with a neighbour to reach,
 * where that is at most a third of its letters and at most two; undefined where none is so near.
 */
export function nearestName(written: string, known: Iterable<string>): string | undefined {
  let nearest: string | undefined;
  let fewest = 3;
  for (const name of known) {
    if (Math.abs(name.length - written.length) >= fewest || name === written) continue;
    const steps = stepsBetween(written.toLowerCase(), name.toLowerCase(), fewest);
    if (steps < fewest && steps * 3 <= Math.max(name.length, written.length)) [nearest, fewest] = [name, steps];
  }
  return nearest;
}

/** Damerau and Levenshtein's distance, by rows (optimal string alignment); `most` and above are all the same. */
function stepsBetween(one: string, other: string, most: number): number {
  if (one === other) return 0;
  let before: number[] = [];
  let last = Array.from({ length: other.length + 1 }, (_, index) => index);
  for (let i = 1; i <= one.length; i++) {
    const row = [i];
    for (let j = 1; j <= other.length; j++) {
      const change = (last[j - 1] ?? 0) + (one[i - 1] === other[j - 1] ? 0 : 1);
      let steps = Math.min(change, (last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1);
      if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) steps = Math.min(steps, (before[j - 2] ?? 0) + 1);
      row.push(steps);
    }
    if (Math.min(...row) >= most) return most;
    [before, last] = [last, row];
  }
  return last[other.length] ?? most;
}
