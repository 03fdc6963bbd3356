/** What a declaration says, however it is laid out: without comments, and with one space where there was any. */
import type { Span } from "../../grammar/tree.ts";
import type { FileId } from "../finding.ts";
import type { Site } from "../site/site.ts";

export function declared(site: Site, file: FileId, { start, end }: Span): string {
  const source = site.files.find(one => one.file === file);
  if (!source) return "";
  let text = "";
  let at = start;
  for (const comment of source.tree.comments) {
    if (comment.start < start || comment.start >= end) continue;
    text += `${source.text.slice(at, comment.start)} `;
    at = comment.end;
  }
  return `${text}${source.text.slice(at, end)}`.replace(/\s+/g, " ").trim();
}
