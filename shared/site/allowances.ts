/** `// allow CODE: reason` on a line, or alone on the line above it. */
import type { SourceFile } from "../finding.ts";
import type { Allowance } from "./site.ts";

/** The allowances of a file, in the order written. One that names no finding or gives no reason is listed too. */
export function allowancesOf(source: SourceFile): readonly Allowance[] {
  const { file, text } = source;
  const found: Allowance[] = [];
  // From the last to the first: several may stand above one line, and each speaks of the first line below that is no comment.
  let below: { readonly start: number; readonly about: number } | undefined;
  for (const comment of [...source.tree.comments].reverse()) {
    let about = comment.start;
    if (comment.alone) {
      about = nextLine(text, comment.end);
      if (below && startOfText(text, about) === below.start) about = below.about;
      below = { start: comment.start, about };
    }
    const said = allowed(comment.text);
    if (!said) continue;
    const line = { start: startOfLine(text, about), end: endOfLine(text, about) };
    found.push({ file, start: comment.start, end: comment.end, ...said, line, comment });
  }
  return found.reverse();
}

/** `allow code: reason`, be one or the other still missing. Taken apart by hand: a pattern for it would try every blank of a long comment anew. */
function allowed(comment: string): { readonly code: string; readonly reason: string } | undefined {
  const said = comment.trim();
  if (said !== "allow" && !/^allow\s/.test(said)) return undefined;
  const rest = said.slice("allow".length).trim();
  const colon = rest.indexOf(":");
  const code = (colon < 0 ? rest : rest.slice(0, colon)).trim();
  if (/\s/.test(code)) return undefined;
  return { code, reason: colon < 0 ? "" : rest.slice(colon + 1).trim() };
}

function startOfLine(text: string, offset: number): number {
  return offset === 0 ? 0 : text.lastIndexOf("\n", offset - 1) + 1;
}

function endOfLine(text: string, offset: number): number {
  const end = text.indexOf("\n", offset);
  return end < 0 ? text.length : end;
}

function nextLine(text: string, offset: number): number {
  return Math.min(text.length, endOfLine(text, offset) + 1);
}

function startOfText(text: string, lineStart: number): number {
  let at = lineStart;
  while (text[at] === " " || text[at] === "\t") at++;
  return at;
}
