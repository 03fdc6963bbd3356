/** The formatter: one canonical layout, no options. It moves words about and changes none. */
import type { IToken } from "chevrotain";
import { parse } from "./parse.ts";
import type { Looks } from "./print.ts";
import { looksOf, step } from "./print.ts";
import { tokenize } from "./tokenize.ts";
import * as t from "./tokens.ts";
import type { Comment, Parsed } from "./tree.ts";

/**
 * The text in its canonical layout, with its own line ends; undefined when it has syntax problems.
 *
 * What comes out is parsed again. Should it not mean the same, or have lost a comment, the text comes back as it is.
 */
export function format(text: string): string | undefined {
  const before = parse(text);
  if (before.problems.length > 0) return undefined;
  const result = layOut(text, before);
  return isSame(before, parse(result)) ? result : text;
}

/** The layout without the proof that it means the same; for the tests, which want to see it fail. */
export function layOut(text: string, { tree }: Parsed): string {
  const { tokens } = tokenize(text);
  return new Layout(text, tokens, tree.comments, looksOf(tree, tokens)).lines();
}

/** Both mean the same and have the same comments. */
export function isSame(before: Parsed, after: Parsed): boolean {
  if (after.problems.length > 0 || before.tree.comments.length !== after.tree.comments.length) return false;
  const comments = before.tree.comments.every((comment, index) => {
    const other = after.tree.comments[index] as Comment;
    return comment.text.trimEnd() === other.text.trimEnd() && comment.alone === other.alone;
  });
  return comments && isSameTree(before.tree.declarations, after.tree.declarations);
}

function isSameTree(a: unknown, b: unknown): boolean {
  if (typeof a !== "object" || a === null || typeof b !== "object" || b === null) return a === b;
  const keys = Object.keys(a);
  if (keys.length !== Object.keys(b).length) return false;
  return keys.every(
    key => key === "start" || key === "end" || isSameTree((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]),
  );
}

/** A token or a comment; for a comment, the token that it stands before. */
interface Piece {
  readonly start: number;
  readonly end: number;
  readonly token?: IToken;
  readonly comment?: Comment;
  readonly next?: IToken;
}

class Layout {
  private readonly source: string;
  private readonly pieces: readonly Piece[];
  private readonly looks: Looks;
  private readonly newline: string;
  /** Lines of the source, by the offset of their first token, that an allowance is for: they are neither split nor joined. */
  private readonly allowed: ReadonlySet<number>;
  private out = "";
  /** What stands on the line that is being written. */
  private line = "";
  /** How far the fact that is being written is set in. */
  private indent = 0;
  /** The declaration whose comments have a column, by its index: the last one reached. */
  private block = 0;

  constructor(text: string, tokens: readonly IToken[], comments: readonly Comment[], looks: Looks) {
    this.source = text;
    this.looks = looks;
    this.newline = /\r\n|\r|\n/.exec(text)?.[0] ?? "\n";
    this.pieces = merged(tokens, comments);
    this.allowed = allowedLines(this.pieces, text);
  }

  lines(): string {
    let line = -1;
    let isAllowed = false;
    for (let index = 0; index < this.pieces.length; index++) {
      const piece = this.pieces[index] as Piece;
      const before = this.pieces[index - 1];
      const breaks = before === undefined ? 0 : breaksBetween(this.source, before.end, piece.start);
      const wasAllowed = isAllowed;
      if (before === undefined || breaks > 0) {
        line = piece.start;
        isAllowed = this.allowed.has(line);
      }
      if (piece.comment !== undefined) this.comment(piece.comment, index, breaks);
      else if (piece.token !== undefined) {
        const isKept = breaks > 0 ? wasAllowed || isAllowed || before?.comment !== undefined : isAllowed;
        this.token(piece.token, before, breaks, isKept);
      }
    }
    this.endLine();
    const mark = this.source.startsWith("\ufeff") ? "\ufeff" : "";
    return mark + this.out;
  }

  /** @param isKept whether the line breaks here just where it did. */
  private token(token: IToken, before: Piece | undefined, breaks: number, isKept: boolean): void {
    const indent = this.looks.indents.get(token.startOffset);
    const touches = this.looks.touching.has(token.startOffset);
    const starts = isKept ? breaks > 0 : indent !== undefined && !(touches && before?.token !== undefined);
    if (before === undefined) this.indent = indent ?? 0;
    else if (starts) {
      const opens = before.token?.tokenType === t.Open;
      this.endLine();
      if (indent !== undefined && breaks > 1 && !opens && token.tokenType !== t.Close) this.blank();
    }
    if (indent !== undefined && (starts || before === undefined)) this.indent = indent;
    const image = token.tokenType === t.Hand ? handOf(token.image) : token.image;
    if (this.line === "") this.line = " ".repeat(indent ?? this.looks.broken.get(token.startOffset) ?? this.indent + 2 * step) + image;
    else this.line += this.gap(token, before?.token) + image;
  }

  private gap(token: IToken, before: IToken | undefined): string {
    if (this.looks.touching.has(token.startOffset) || touches(token, before)) return "";
    const column = this.looks.columns.get(token.startOffset);
    return " ".repeat(Math.max(1, (column ?? 0) - width(this.line)));
  }

  private comment(comment: Comment, index: number, breaks: number): void {
    const image = `//${comment.text.trimEnd()}`;
    if (!comment.alone) {
      this.line += " ".repeat(Math.max(1, this.commentColumn(comment) - width(this.line))) + image;
      return;
    }
    const opens = this.pieces[index - 1]?.token?.tokenType === t.Open;
    this.endLine();
    const next = this.pieces[index]?.next;
    const indent = next === undefined ? 0 : (this.looks.indents.get(next.startOffset) ?? this.looks.broken.get(next.startOffset));
    if (breaks > 1 && !opens && indent !== undefined) this.blank();
    const inner = next?.tokenType === t.Close && indent !== undefined ? indent + step : indent;
    this.line = " ".repeat(inner ?? this.indent + 2 * step) + image;
  }

  private commentColumn(comment: Comment): number {
    const blocks = this.looks.comments;
    while ((blocks[this.block]?.end ?? Infinity) <= comment.start) this.block++;
    const block = blocks[this.block];
    return block !== undefined && block.start < comment.start ? block.column : 0;
  }

  private endLine(): void {
    if (this.line !== "") this.out += this.line + this.newline;
    this.line = "";
  }

  private blank(): void {
    if (this.out !== "") this.out += this.newline;
  }
}

function merged(tokens: readonly IToken[], comments: readonly Comment[]): Piece[] {
  const pieces: Piece[] = [];
  let index = 0;
  const before = (next: IToken | undefined) => {
    for (; index < comments.length; index++) {
      const comment = comments[index] as Comment;
      if (next !== undefined && comment.start > next.startOffset) break;
      pieces.push({ start: comment.start, end: comment.end, comment, next });
    }
  };
  for (const token of tokens) {
    before(token);
    pieces.push({ start: token.startOffset, end: t.endOf(token), token });
  }
  before(undefined);
  return pieces;
}

/** An allowance is for its own line, or alone for the line below it. */
function allowedLines(pieces: readonly Piece[], text: string): ReadonlySet<number> {
  const lines = new Set<number>();
  let line = -1;
  let isBelow = false;
  for (let index = 0; index < pieces.length; index++) {
    const piece = pieces[index] as Piece;
    const before = pieces[index - 1];
    if (before === undefined || breaksBetween(text, before.end, piece.start) > 0) {
      line = piece.start;
      if (isBelow && piece.comment === undefined) lines.add(line);
      isBelow = false;
    }
    if (piece.comment !== undefined && /^\s*allow\b/.test(piece.comment.text)) {
      if (piece.comment.alone) isBelow = true;
      else lines.add(line);
    }
  }
  return lines;
}

/** Line breaks between two offsets that have nothing but blanks between them; two are enough to know. */
function breaksBetween(text: string, from: number, to: number): number {
  let breaks = 0;
  for (let index = from; index < to && breaks < 2; index++) {
    const unit = text.charCodeAt(index);
    if (unit === 13 && text.charCodeAt(index + 1) === 10) continue;
    if (unit === 10 || unit === 13) breaks++;
  }
  return breaks;
}

/** Signs that touch what is before them, wherever they stand. */
function touches(token: IToken, before: IToken | undefined): boolean {
  const type = token.tokenType;
  if (type === t.Comma || type === t.Range || type === t.Plus) return true;
  return before?.tokenType === t.Range || before?.tokenType === t.Plus;
}

function handOf(image: string): string {
  return `[${image.slice(1, -1).trim().replace(/\s+/g, " ")}]`;
}

/** Columns that a line takes: one for each character, so that letters outside the basic plane do not count twice. */
function width(line: string): number {
  return /^[\0-\x7f]*$/.test(line) ? line.length : [...line].length;
}
