/** Where a line begins and ends, for the two places in which line breaks matter. */

/** A character that parts words and means nothing else. */
export const blank = /[ \t\n\r\v\f\u00a0\u1680\u2000-\u200f\u2028\u2029\u202f\u205f\u2060\u3000\ufeff]/;

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

/** Within a line. */
function isBlank(unit: number): boolean {
  if (unit < 128) return unit === 32 || unit === 9 || unit === 11 || unit === 12;
  return blank.test(String.fromCharCode(unit));
}
