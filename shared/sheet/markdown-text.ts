/** Words in a Markdown page. */

/** Text that stays text: every sign that Markdown or a Git host could take for markup, a link, a mention or an emoji name is escaped. */
export function markdownText(words: string): string {
  return words
    .replace(/[\\`*_{}[\]<>&|~#!$@^=]/g, "\\$&")
    .replace(/:(?=[\w/+-])/g, "\\:")
    .replace(/\bwww\./gi, match => `${match.slice(0, 3)}\\.`);
}
