/** Words in a Markdown page. */

/** Text that stays text: every sign that Markdown or a Git host could take for markup, a link, a mention or an emoji name is escaped. */
export function markdownText(words: string): string {
  return words
    .replace(/[\\`*_{}[\]<>&|~#!$@^=]/g, "\\$&")
    .replace(/:(?=[\w/+-])/g, "\\:")
    .replace(/\bwww\./gi, match => `${match.slice(0, 3)}\\.`);
}

/** A table; its cells are Markdown already, without a bar of their own. */
export function markdownTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return [head, head.map(() => "---"), ...rows].map(cells => `| ${cells.join(" | ")} |`).join("\n");
}

/** A code span whose fence is longer than any run of backticks in it; a bar would end a table's cell. */
export function codeSpan(shown: string): string {
  const longest = Math.max(0, ...[...shown.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = "`".repeat(longest + 1);
  const room = /^`|`$/.test(shown) ? " " : "";
  return `${fence}${room}${shown.replaceAll("|", "\\|")}${room}${fence}`;
}
