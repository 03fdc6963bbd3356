/** What the grammar allows at a cursor: the ground of completion, also while the line under the cursor is half typed. */
import type { IToken, TokenType } from "chevrotain";
import type { Allowed } from "./allowed.ts";
import { declarationsAllowed, headAllowed, inBlock } from "./expected-facts.ts";
import { isFirstOnLine } from "./lines.ts";
import { parse } from "./parse.ts";
import { tokenize } from "./tokenize.ts";
import * as t from "./tokens.ts";
import type { Declaration, Span } from "./tree.ts";

export interface Expected extends Span {
  /** What has been typed of it before the cursor; `start` to `end` is what a completion replaces. */
  readonly typed: string;
  readonly allowed: readonly Allowed[];
}

/**
 * What may stand at an offset.
 *
 * Only the declaration around the offset is read, so that the answer does not take longer in a longer file. Inside a comment
 * nothing is allowed; inside a text, the one text that it is.
 */
export function expectedAt(text: string, offset: number): Expected {
  const from = declarationStart(text, offset);
  const head = text.slice(from, offset);
  const { tokens, comments } = tokenize(head);
  const last = tokens[tokens.length - 1];
  const comment = comments[comments.length - 1];
  if (comment !== undefined && comment.end === head.length) return { start: offset, end: offset, typed: "", allowed: [] };
  const isTyping = last !== undefined && t.endOf(last) === head.length && /[\w-]$/.test(last.image) && !last.image.startsWith('"');
  const isInText = last?.tokenType === t.UnclosedText && t.endOf(last) === head.length;
  const before = isTyping || isInText ? tokens.slice(0, -1) : tokens;
  const start = isTyping || isInText ? from + (last?.startOffset ?? 0) : offset;
  const typed = text.slice(start, offset);
  const rest = isInText ? /^[^"\r\n]*"?/ : /^[\w-]*/;
  const end = offset + (rest.exec(text.slice(offset, offset + 1000))?.[0].length ?? 0);
  const allowed = allowedAfter(head.slice(0, start - from), before);
  return { start, end, typed, allowed: isInText ? allowed.filter(({ kind }) => kind === "text") : allowed };
}

/** Where the last declaration before an offset begins that is not set in. Records name their model in a line set in, so that is none. */
function declarationStart(text: string, offset: number): number {
  const begins = new RegExp(`^(?:${t.declarationWords.join("|")})\\b`);
  for (let line = lineStart(text, offset); ; line = lineStart(text, line - 1)) {
    if (begins.test(text.slice(line, line + 10))) return line;
    if (line === 0) return 0;
  }
}

function lineStart(text: string, offset: number): number {
  if (offset === 0) return 0;
  return Math.max(text.lastIndexOf("\n", offset - 1), text.lastIndexOf("\r", offset - 1)) + 1;
}

function allowedAfter(head: string, tokens: readonly IToken[]): readonly Allowed[] {
  const declaration = parse(head).tree.declarations.at(-1);
  if (declaration === undefined) return declarationsAllowed;
  const depth = depthOf(tokens);
  const isNewLine = isFirstOnLine(head, head.length);
  const said = (from: { readonly start: number } | undefined) =>
    from === undefined ? [] : tokens.filter(token => token.startOffset >= from.start);
  if (depth === 0) return headAllowed(declaration, said(declaration), isNewLine);
  const blocks = openBlocks(declaration, depth);
  const block = blocks[blocks.length - 1] ?? declaration;
  const fact = lastWords(block, tokens, head);
  if (depth > blocks.length) return fieldAllowed(behindLast(t.Open, said(fact)));
  return inBlock(block, said(fact), isNewLine);
}

function behindLast(type: TokenType, tokens: readonly IToken[]): readonly IToken[] {
  return tokens.slice(tokens.map(token => token.tokenType).lastIndexOf(type) + 1);
}

function fieldAllowed(said: readonly IToken[]): readonly Allowed[] {
  if (said.length === 0) return [{ kind: "field" }];
  if (said[said.length - 1]?.tokenType === t.Colon || said[said.length - 1]?.tokenType === t.Plus) return [{ kind: "number", of: "width" }];
  return said.length === 1 ? [sign(":"), sign("}")] : [sign("}")];
}

function sign(said: string): Allowed {
  return { kind: "sign", sign: said };
}

function depthOf(tokens: readonly IToken[]): number {
  let depth = 0;
  for (const token of tokens) {
    if (token.tokenType === t.Open) depth++;
    else if (token.tokenType === t.Close && depth > 0) depth--;
  }
  return depth;
}

/** The blocks that are open at the end, outermost first: a declaration, a relay in it, a model's factory and its relay. */
function openBlocks(declaration: Declaration, depth: number): object[] {
  const blocks: object[] = [declaration];
  while (blocks.length < depth) {
    const inner = lastOf(blocks[blocks.length - 1] as object, Number.MAX_SAFE_INTEGER);
    if (inner === undefined || !("body" in inner) || inner.body === undefined) break;
    blocks.push(inner);
  }
  return blocks;
}

/** Where the last fact begins: a model's operation may have only its first word, and is not in the tree then. */
function lastWords(block: object, tokens: readonly IToken[], head: string): { readonly start: number } | undefined {
  const fact = lastOf(block, head.length);
  if (!("kind" in block) || block.kind !== "model") return fact;
  const operates = t.Operates.categoryMatches ?? [];
  const begun = tokens.filter(({ tokenTypeIdx, startOffset }) => operates.includes(tokenTypeIdx) && isFirstOnLine(head, startOffset)).pop();
  return begun !== undefined && begun.startOffset > (fact?.start ?? -1) ? { start: begun.startOffset } : fact;
}

/** The last fact, rule or entry of a block. */
function lastOf(block: object, before: number): Span | undefined {
  const list = (
    "entries" in block ? block.entries : "facts" in block ? block.facts : "rules" in block ? block.rules : []
  ) as readonly Span[];
  return list.filter(fact => fact.start < before).pop();
}
