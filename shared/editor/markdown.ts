/** Users' words inside Markdown: shown as they are, whatever signs they hold. */
import { visible } from "../sheet/visible.ts";

/** A label, a name or a text of the user in a sentence. */
export function plain(text: string): string {
  return visible(text).replace(/[\\`*_{}[\]<>()#+!|~&-]/g, sign => `\\${sign}`);
}

/** Something as it is typed or written in a text. */
export function verbatim(text: string): string {
  const clean = visible(text);
  const longest = Math.max(0, ...[...clean.matchAll(/`+/g)].map(run => run[0].length));
  const fence = "`".repeat(longest + 1);
  return longest > 0 ? `${fence} ${clean} ${fence}` : fence + clean + fence;
}
