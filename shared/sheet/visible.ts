/** Labels as they may be printed: what steers a screen, a printer or the direction of writing is made visible. */

/** C0 and C1 controls, line and paragraph separators, zero-width spaces, bidirectional controls, halves of a surrogate pair. */
const steering =
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Letters written from right to left; they would draw the digits beside them out of order. */
const rightToLeft = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]|\ud802[\udc00-\udfff]|\ud83a[\udc00-\udfff]/;

const firstStrongIsolate = "\u2068";
const popIsolate = "\u2069";

/** The text with every steering character as its number, `‹U+202E›`; nothing else changes, nothing is cut. */
export function visible(text: string): string {
  return text.replace(steering, found => `‹U+${found.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}›`);
}

/** Whole lines for a terminal: as `visible`, but line ends, tabs and what `labelled` puts around a label stay. */
export function visibleLines(text: string): string {
  return text.replace(/[^\n\t\u2068\u2069]+/g, visible);
}

/** A label for use inside a sentence: visible, and kept from reordering its neighbours where it is written from right to left. */
export function labelled(text: string): string {
  const clean = visible(text);
  return rightToLeft.test(clean) ? `${firstStrongIsolate}${clean}${popIsolate}` : clean;
}
