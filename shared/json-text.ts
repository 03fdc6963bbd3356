/** Values as JSON for other programs, which may also be seen on a terminal. */

/** What JSON allows in a string and a terminal would act on: controls of 8 bits, line separators, the direction of writing. */
const steering = /[\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g;

/** Two spaces a level, with a line end behind it. The same value comes out of it again. */
export function jsonText(value: unknown, how?: (name: string, value: unknown) => unknown): string {
  const text = JSON.stringify(value, how, 2).replace(steering, found => `\\u${found.charCodeAt(0).toString(16).padStart(4, "0")}`);
  return `${text}\n`;
}
