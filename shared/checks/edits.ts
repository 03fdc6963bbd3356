/** Edits that several fixes make: whole lines taken out, words replaced, lines put into a block. */
import type { Span } from "../../grammar/tree.ts";
import type { Edit, FileId, Fix, Place } from "../finding.ts";
import { must } from "../must.ts";
import type { Credential, Site } from "../site/site.ts";
import type { HeldAt } from "../site/where.ts";

export function textOf(site: Site, file: FileId): string {
  const source = site.files.find(one => one.file === file);
  must(source, "a finding's file is one of its site's");
  return source.text;
}

export function replace(file: FileId, span: Span, text: string): Edit {
  return { file, start: span.start, end: span.end, text };
}

export function insert(file: FileId, offset: number, text: string): Edit {
  return { file, start: offset, end: offset, text };
}

/** Takes out what stands there; the whole line with its comment, where nothing else stands on its lines. */
export function remove(site: Site, file: FileId, span: Span): Edit {
  const text = textOf(site, file);
  const lineStart = text.lastIndexOf("\n", span.start - 1) + 1;
  const lineBreak = text.indexOf("\n", span.end);
  const lineEnd = lineBreak < 0 ? text.length : lineBreak + 1;
  const before = text.slice(lineStart, span.start);
  const after = text.slice(span.end, lineEnd);
  if (before.trim() === "" && /^(?:\/\/.*)?$/.test(after.trim())) return replace(file, { start: lineStart, end: lineEnd }, "");
  // Among other things on its line: one blank goes with it.
  const blanks = blanksBehind(before);
  return replace(file, { start: before.trim() === "" ? span.start : span.start - blanks, end: span.end }, "");
}

/** Takes out a comment, and its line where it stands alone. */
export function removeComment(site: Site, place: Place): Edit {
  return remove(site, place.file, place);
}

/** The line break that a file uses. */
export function lineBreakOf(text: string): string {
  return text.includes("\r\n") ? "\r\n" : "\n";
}

/** Lines at the end of a block in braces, indented by two blanks more than the line that begins the block. */
export function linesAtEnd(site: Site, file: FileId, block: Span, lines: readonly string[]): Edit {
  const text = textOf(site, file);
  const eol = lineBreakOf(text);
  const closing = block.end - 1;
  const lineStart = text.lastIndexOf("\n", closing - 1) + 1;
  const indent = /^[ \t]*/.exec(text.slice(text.lastIndexOf("\n", block.start - 1) + 1))?.[0] ?? "";
  const own = lines.map(line => `${indent}  ${line}${eol}`).join("");
  // A closing brace alone on its line: the new lines go above it. Otherwise the brace gets a line of its own.
  if (text.slice(lineStart, closing).trim() === "" && lineStart > block.start) return insert(file, lineStart, own);
  const blanks = blanksBehind(text.slice(block.start + 1, closing));
  return replace(file, { start: closing - blanks, end: closing }, `${eol}${own}${indent}`);
}

/** How many blanks a text ends with. */
function blanksBehind(text: string): number {
  let at = text.length;
  while (text[at - 1] === " " || text[at - 1] === "\t") at--;
  return text.length - at;
}

/** Takes out what is placed: the entry, or its half of a pair. Installer and all-relay codes are not taken out so. */
export function removePlaced(site: Site, placed: HeldAt): readonly Fix[] {
  if (placed.as !== "slot") return [];
  const { node, held } = placed.placement;
  const file = placed.keypad.file;
  const other = held.find(use => use !== placed.use);
  if (!other) return [{ title: "Remove the entry", edits: [remove(site, file, node)], preferred: true }];
  const [first, last] =
    placed.use.node.start < other.node.start ? [placed.use.node.start, other.node.start] : [other.node.end, placed.use.node.end];
  return [{ title: "Remove this half of the entry", edits: [replace(file, { start: first, end: last }, "")], preferred: true }];
}

/** A new code for a credential; whoever applies it has the random source. Empty for a tag, which nobody can draw. */
export function drawNew(credential: Credential | undefined): readonly Fix[] {
  if (credential?.kind !== "code") return [];
  return [{ title: `Draw a new code for ${credential.holder.label}`, edits: [], draws: credential.path }];
}
