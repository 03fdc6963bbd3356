/** The name that was probably meant: the nearest of those that there are. */

/**
 * @returns the known name that takes the fewest letters put in, left out, changed or swapped with a neighbour to reach,
 * where that is at most a third of its letters and at most two; undefined where none is so near. Of names equally near, the first.
 */
export function nearestName(written: string, known: Iterable<string>): string | undefined {
  const names = Array.isArray(known) ? (known as readonly string[]) : [...known];
  // Mostly one letter is wrong, and two need not be looked for: that search takes many times as long.
  return nameWithin(1, written, names) ?? nameWithin(2, written, names);
}

/** @param most steps at most */
function nameWithin(most: 1 | 2, written: string, names: readonly string[]): string | undefined {
  const lower = written.toLowerCase();
  let nearest: string | undefined;
  let fewest = most + 1;
  for (const name of names) {
    if (Math.abs(name.length - written.length) >= fewest || name === written) continue;
    const steps = stepsBetween(lower, name.toLowerCase(), fewest);
    if (steps < fewest && steps * 3 <= Math.max(name.length, written.length)) [nearest, fewest] = [name, steps];
  }
  return nearest;
}

/** Damerau and Levenshtein's distance (optimal string alignment); `most` and above are all the same. What both begin or end with takes no step. */
function stepsBetween(one: string, other: string, most: number): number {
  let start = 0;
  let end = one.length;
  let otherEnd = other.length;
  while (start < end && start < otherEnd && one.charCodeAt(start) === other.charCodeAt(start)) start++;
  while (end > start && otherEnd > start && one.charCodeAt(end - 1) === other.charCodeAt(otherEnd - 1)) {
    end--;
    otherEnd--;
  }
  const [length, otherLength] = [end - start, otherEnd - start];
  if (length === 0 || otherLength === 0) return Math.min(most, Math.max(length, otherLength));
  if (most <= 2) return length === 1 && otherLength === 1 ? 1 : isSwap(one, other, start, length, otherLength) ? 1 : most;
  return byRows(one.slice(start, end), other.slice(start, otherEnd), most);
}

function isSwap(one: string, other: string, start: number, length: number, otherLength: number): boolean {
  return length === 2 && otherLength === 2 && one[start] === other[start + 1] && one[start + 1] === other[start];
}

function byRows(one: string, other: string, most: number): number {
  let before: number[] = [];
  let last = Array.from({ length: other.length + 1 }, (_, index) => index);
  for (let i = 1; i <= one.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= other.length; j++) {
      const change = (last[j - 1] ?? 0) + (one.charCodeAt(i - 1) === other.charCodeAt(j - 1) ? 0 : 1);
      let steps = Math.min(change, (last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1);
      if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) steps = Math.min(steps, (before[j - 2] ?? 0) + 1);
      row.push(steps);
      if (steps < least) least = steps;
    }
    if (least >= most) return most;
    [before, last] = [last, row];
  }
  return last[other.length] ?? most;
}
