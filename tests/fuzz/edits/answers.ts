/** What the shape of an answer does not say: that its places are those of the text, and that what it would change can be changed. */
import { format } from "../../../grammar/format.ts";
import { holds } from "../text/holds.ts";
import type { Range } from "./text.ts";
import { offsetAt, withEdits, wrongRange } from "./text.ts";

export function checkAnswer(method: string, result: unknown, text: string, uri: string): void {
  if (result === null || result === undefined) return;
  checkRanges(method, result, text, uri);
  if (method === "textDocument/semanticTokens/full") checkTokens((result as { data: readonly number[] }).data, text);
  if (method === "textDocument/documentSymbol") checkSymbols(result as readonly Symbol[]);
  if (method === "textDocument/foldingRange") checkFolds(result as readonly Fold[], text);
  if (method === "textDocument/formatting") checkFormatting(result as readonly Edit[], text);
  if (method === "textDocument/rangeFormatting" || method === "textDocument/onTypeFormatting") withEdits(text, result as readonly Edit[]);
  if (method === "textDocument/selectionRange") for (const each of result as readonly Selection[]) checkSelection(each, text);
}

interface Edit {
  readonly range: Range;
  readonly newText: string;
}

interface Symbol {
  readonly range?: Range;
  readonly selectionRange?: Range;
  readonly children?: readonly Symbol[];
}

interface Fold {
  readonly startLine: number;
  readonly endLine: number;
}

interface Selection {
  readonly range: Range;
  readonly parent?: Selection;
}

/** Every range in an answer is one of the text; what is said of another file is left to that file. */
function checkRanges(method: string, value: unknown, text: string, uri: string): void {
  if (typeof value !== "object" || value === null) return;
  const own = value as { uri?: unknown; targetUri?: unknown; textDocument?: { uri?: unknown }; changes?: object };
  if ([own.uri, own.targetUri, own.textDocument?.uri].some(other => typeof other === "string" && other !== uri)) return;
  for (const [key, each] of Object.entries(value)) {
    if (key === "changes" && each && typeof each === "object") {
      checkRanges(method, (each as Record<string, unknown>)[uri], text, uri);
      continue;
    }
    const isRange = /^(?:range|selectionRange|targetRange|targetSelectionRange|originSelectionRange|insert|replace)$/.test(key);
    if (isRange && each && typeof each === "object" && "start" in each) {
      const wrong = wrongRange(text, each as Range);
      holds(wrong === undefined, `${method}: ${wrong}`);
    } else checkRanges(method, each, text, uri);
  }
}

/** Five numbers each, in order, within their lines. */
function checkTokens(data: readonly number[], text: string): void {
  holds(data.length % 5 === 0, "colours are not five numbers each");
  let [line, character, end] = [0, 0, 0];
  for (let at = 0; at < data.length; at += 5) {
    const [down = 0, along = 0, length = 0, kind = 0] = data.slice(at, at + 4);
    if (down > 0) [line, character, end] = [line + down, along, 0];
    else character += along;
    holds(length > 0 && kind >= 0 && character >= end, "coloured words overlap");
    end = character + length;
    const wrong = wrongRange(text, { start: { line, character }, end: { line, character: end } });
    holds(wrong === undefined, `a coloured word: ${wrong}`);
  }
}

function checkSymbols(symbols: readonly Symbol[]): void {
  for (const { range, selectionRange, children } of symbols) {
    if (range && selectionRange) holds(isWithin(selectionRange, range), "the shown part of a symbol is not within it");
    checkSymbols(children ?? []);
  }
}

function checkFolds(folds: readonly Fold[], text: string): void {
  const lines = text.split(/\r\n|\n|\r/).length;
  for (const { startLine, endLine } of folds) holds(startLine < endLine && endLine < lines, "a fold is not one of lines of the text");
}

/** What comes of the edits is the layout of the text, letter for letter. */
function checkFormatting(edits: readonly Edit[], text: string): void {
  holds(withEdits(text, edits) === (format(text) ?? text), "the edits of a layout do not give the layout");
}

function checkSelection(selection: Selection, text: string): void {
  if (!selection.parent) return;
  holds(isWithin(selection.range, selection.parent.range), "a wider selection is narrower");
  holds(offsetAt(text, selection.range.start) <= offsetAt(text, selection.range.end), "a selection ends before it begins");
  checkSelection(selection.parent, text);
}

function isWithin(inner: Range, outer: Range): boolean {
  const isBefore = (one: Range["start"], other: Range["start"]) =>
    one.line < other.line || (one.line === other.line && one.character <= other.character);
  return isBefore(outer.start, inner.start) && isBefore(inner.end, outer.end);
}
