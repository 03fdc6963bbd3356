/** A text in quotes, as the language reads it: with a backslash before each quote and each backslash of its own. */
export function quoted(text: string): string {
  return `"${escaped(text)}"`;
}

/** What stands between the quotes. */
export function escaped(text: string): string {
  return text.replace(/["\\]/g, "\\$&");
}
