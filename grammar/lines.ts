/** Where a line begins and ends, for the two places in which line breaks matter. */

/** Nothing but blanks between the offset and the line break before it. */
export function isFirstOnLine(text: string, offset: number): boolean {
  for (let index = offset - 1; index >= 0; index--) {
    const unit = text.charCodeAt(index);
    if (unit === 10 || unit === 13) return true;
    if (!isBlank(unit)) return false;
  }
  return true;
}

/** No line break between two offsets. */
export function isSameLine(text: string, from: number, to: number): boolean {
  for (let index = from; index < to; index++) {
    const unit = text.charCodeAt(index);
    if (unit === 10 || unit === 13) return false;
  }
  return true;
}

/** The next sign on the line is a dot. */
export function isDotAfter(text: string, offset: number): boolean {
  let index = offset;
  while (isBlank(text.charCodeAt(index))) index++;
  return text.charCodeAt(index) === 46;
}

function isBlank(unit: number): boolean {
  return unit === 32 || unit === 9 || unit === 0xfeff || unit === 0xa0 || unit === 11 || unit === 12 || (unit >= 0x2000 && unit <= 0x200f);
}
