/** Where in a text something is about to be written: the block, the line so far, the word under way. */
import type { Declaration, FittedRelay, RelayDecl, SourceTree, Span } from "../../../grammar/tree.ts";
import type { SourceFile } from "../../finding.ts";

export interface Cursor {
  readonly source: SourceFile;
  readonly offset: number;
  /** The word that is being written, up to the cursor; what is suggested takes its place. */
  readonly word: Span & { readonly text: string };
  /** The line before that word, without the blanks it begins with. */
  readonly line: string;
  /** Stands in a comment. */
  readonly inComment: boolean;
  /** Where the text between quotes begins, when the cursor is in one. */
  readonly quoted?: Span & { readonly text: string };
  /** The declaration whose block, or whose facts, the cursor is in. */
  readonly declaration?: Declaration;
  /** Between the braces of the declaration. */
  readonly inBody: boolean;
  readonly relay?: RelayDecl;
  readonly fittedRelay?: FittedRelay;
  /** Nothing but blanks stands before the word on its line. */
  readonly isFirst: boolean;
  /** A line begun without blanks: what comes there is a declaration. */
  readonly atMargin: boolean;
}

export function cursorAt(source: SourceFile, offset: number): Cursor {
  const { text, tree } = source;
  const lineStart = Math.max(text.lastIndexOf("\n", offset - 1), text.lastIndexOf("\r", offset - 1)) + 1;
  let start = offset;
  while (start > lineStart && /[A-Za-z0-9_-]/.test(text[start - 1] ?? "")) start--;
  const before = text.slice(lineStart, start).replace(/^\ufeff/, "");
  const declaration = declarationAt(tree, text, offset);
  const facts = declaration?.kind === "keypad" || declaration?.kind === "fitted" ? declaration.facts : [];
  const relay = facts.find(
    fact => (fact.kind === "relay" || fact.kind === "fitted-relay") && isIn(fact.body, text, offset, endOf(tree, text, offset)),
  );
  const quoted = quotedAt(text, lineStart, offset);
  return {
    source,
    offset,
    word: { start, end: offset, text: text.slice(start, offset) },
    line: before.trimStart(),
    inComment: tree.comments.some(comment => comment.start < offset && offset <= comment.end),
    ...(quoted && { quoted }),
    ...(declaration && { declaration }),
    inBody: declaration !== undefined && isIn(bodyOf(declaration, text), text, offset, endOf(tree, text, offset)),
    ...(relay?.kind === "relay" && { relay }),
    ...(relay?.kind === "fitted-relay" && { fittedRelay: relay }),
    isFirst: before.trim() === "",
    atMargin: before === "",
  };
}

/** The last declaration that begins before the cursor, unless its block is closed before it. */
function declarationAt(tree: SourceTree, text: string, offset: number): Declaration | undefined {
  const before = tree.declarations.filter(({ start }) => start < offset);
  const last = before.at(-1);
  const body = last && bodyOf(last, text);
  return body && isClosed(body, text) && offset >= body.end ? undefined : last;
}

/** Where the declaration after the cursor begins. */
function endOf(tree: SourceTree, text: string, offset: number): number {
  return tree.declarations.find(({ start }) => start >= offset)?.start ?? text.length;
}

function bodyOf(declaration: Declaration, text: string): Span | undefined {
  if (declaration.kind === "use" || declaration.kind === "holder") return undefined;
  if (declaration.kind !== "site") return declaration.body;
  const open = text.indexOf("{", declaration.label?.end ?? declaration.keyword.end);
  return open >= 0 && open < declaration.end ? { start: open, end: declaration.end } : undefined;
}

/** A block without its closing brace goes on to the next declaration. */
function isIn(body: Span | undefined, text: string, offset: number, next: number): boolean {
  if (!body || offset <= body.start) return false;
  return isClosed(body, text) ? offset < body.end : offset <= next;
}

function isClosed({ start, end }: Span, text: string): boolean {
  return end - 1 > start && text[end - 1] === "}";
}

/** The text between quotes that the cursor is in: from behind the opening quote to before the closing one, or the cursor. */
function quotedAt(text: string, lineStart: number, offset: number): Cursor["quoted"] {
  let open = -1;
  for (let at = lineStart; at < offset; at++) {
    if (text[at] === "\\" && open >= 0) at++;
    else if (text[at] === '"') open = open < 0 ? at : -1;
    else if (open < 0 && text.startsWith("//", at)) return undefined;
  }
  if (open < 0) return undefined;
  const rest = /^[^"\r\n]*/.exec(text.slice(offset))?.[0] ?? "";
  const end = text[offset + rest.length] === '"' ? offset + rest.length : offset;
  return { start: open + 1, end, text: text.slice(open + 1, offset) };
}
