/** Where a drawn code is written: in place of the old digits, or as a line of its own behind the holder's others. */
import { parse } from "../../grammar/parse.ts";
import { lineBreakOf, textOf } from "../checks/edits.ts";
import { edited } from "../edited.ts";
import type { Edit, FileId } from "../finding.ts";
import type { Digits } from "../keypad/memory.ts";
import type { Credential, Holder, Site } from "../site/site.ts";

export interface WrittenAt {
  readonly start: number;
  readonly end: number;
  readonly file: FileId;
  /** What goes before the digits in the edit. */
  readonly before: string;
}

export function placeOfCode({ node, file }: Credential): WrittenAt | undefined {
  if (node.kind !== "code") return undefined;
  if (node.digits) return { file, start: node.digits.start, end: node.digits.end, before: "" };
  const end = node.name?.end ?? node.keyword.end;
  return { file, start: end, end, before: " " };
}

/** A first code stands beside the holder's name, any other on a line like the last one's, behind that line's comment. */
export function placeOfNewCode(site: Site, { node, file }: Holder, name: string | undefined): WrittenAt | undefined {
  const words = `code ${name === undefined ? "" : `${name} `}`;
  const last = node.facts.at(-1);
  if (!last) return node.label ? { file, start: node.label.end, end: node.label.end, before: ` ${words}` } : undefined;
  const text = textOf(site, file);
  const comment = /^[ \t]*\/\/[^\r\n]*/.exec(text.slice(last.end))?.[0].length ?? 0;
  const at = last.end + comment;
  const lineStart = Math.max(text.lastIndexOf("\n", last.start - 1), text.lastIndexOf("\r", last.start - 1)) + 1;
  const before = text.slice(lineStart, last.start);
  const indent = before !== "" && before.trim() === "" ? before : "  ";
  return { file, start: at, end: at, before: `${lineBreakOf(text)}${indent}${words}` };
}

/** The edit that writes a code there; undefined where the text would not be read as meant afterwards, as with a name that is no name. */
export function writtenCode(site: Site, holder: Holder, name: string | undefined, place: WrittenAt, code: Digits): Edit | undefined {
  const edit = { file: place.file, start: place.start, end: place.end, text: `${place.before}${code}` };
  const { tree } = parse(edited(textOf(site, place.file), [edit]));
  const after = tree.declarations.find(one => one.kind === "holder" && one.name?.text === holder.id);
  if (after?.kind !== "holder") return undefined;
  const written = after.facts.some(fact => fact.kind === "code" && fact.name?.text === name && fact.digits?.text === code);
  return written ? edit : undefined;
}
