/** Which characters of a file are digits of a code, or may be: a line that is printed shows dots in their place. */
import type { Span } from "../../../grammar/tree.ts";
import type { SourceFile } from "../../../shared/finding.ts";

/** True where the character at this offset is to be hidden. */
export type Hidden = (offset: number) => boolean;

/** Shorter runs of digits are taken for what they are: slots, seconds, lengths. */
const shortestCode = 3;

/**
 * Digits that the tree knows to be something else (slots, tags, dates, labels, keys of a model) stay. Every other run of three or
 * more digits is hidden, understood or not, since a half-typed line may hold a code in a place where the grammar has none.
 */
export function secretsOf({ tree, text }: SourceFile): Hidden {
  const codes: Span[] = [];
  const words: Span[] = [];
  collect(tree, "", undefined, codes, words);
  const isCode = within(codes);
  const isOther = within(words.filter(({ start }) => !isForeignDigit(text.charCodeAt(start))));
  const isDigit = (offset: number) => {
    const unit = text.charCodeAt(offset);
    return (unit >= 0x30 && unit <= 0x39) || isForeignDigit(unit);
  };
  return offset => {
    if (!isDigit(offset)) return false;
    if (isCode(offset)) return true;
    if (isOther(offset)) return false;
    let start = offset;
    while (offset - start < shortestCode && isDigit(start - 1)) start--;
    let end = offset + 1;
    while (end - start < shortestCode && isDigit(end)) end++;
    return end - start >= shortestCode && !isInDate(text, offset);
  };
}

/** A digit of another script, as in full-width writing: no word of the language begins with one, so that it may be a code. */
function isForeignDigit(unit: number): boolean {
  return unit > 0x7f && /\p{Nd}/u.test(String.fromCharCode(unit));
}

/** Kinds of a node whose `digits` are a code. */
const coded: ReadonlySet<unknown> = new Set(["code", "installer", "all-relay"]);

/** Sorts every word of the tree: those that are a code, and those that certainly are not. Comments may quote anything. */
function collect(node: unknown, key: string, parentKind: unknown, codes: Span[], others: Span[]): void {
  if (Array.isArray(node)) {
    for (const item of node) collect(item, key, parentKind, codes, others);
  } else if (typeof node === "object" && node !== null && key !== "comments") {
    if (isWord(node)) {
      const isCode = (key === "digits" && coded.has(parentKind)) || (key === "code" && parentKind === "fitted-entry");
      (isCode ? codes : others).push(node);
    } else {
      const kind = "kind" in node ? node.kind : parentKind;
      for (const [name, value] of Object.entries(node)) collect(value, name, kind, codes, others);
    }
  }
}

function isWord(node: object): node is Span & { readonly text: string } {
  return "start" in node && "end" in node && "text" in node && typeof node.text === "string";
}

/** `2027-03-31` in a comment is no code. */
function isInDate(text: string, offset: number): boolean {
  for (let start = offset - 3; start <= offset; start++)
    if (start >= 0 && /^\d{4}-\d\d-\d\d(?!\d)/.test(text.slice(start, start + 11))) return true;
  return false;
}

/** Whether an offset is in one of the spans, which do not overlap. */
function within(spans: Span[]): (offset: number) => boolean {
  spans.sort((a, b) => a.start - b.start);
  return offset => {
    let low = 0;
    let high = spans.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((spans[middle]?.start ?? 0) <= offset) low = middle + 1;
      else high = middle;
    }
    const last = spans[low - 1];
    return last !== undefined && offset < last.end;
  };
}
