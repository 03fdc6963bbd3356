/** What a selection grows to, step by step: the word, then everything that it is part of, up to the whole text. */
import type { SourceTree, Span } from "../../grammar/tree.ts";

const wordPart = /[A-Za-z0-9_-]/;

/** From the narrowest to the whole text; each span is wider than the one before and holds it. Never empty. */
export function widening(tree: SourceTree, text: string, offset: number): readonly Span[] {
  const spans: Span[] = [wordAt(text, offset), ...partsOf(tree, text, offset), { start: 0, end: text.length }];
  spans.sort((one, other) => one.end - one.start - (other.end - other.start));
  const grown: Span[] = [];
  for (const { start, end } of spans) {
    const last = grown.at(-1);
    if (!last) grown.push({ start, end });
    else if (start <= last.start && end >= last.end && end - start > last.end - last.start) grown.push({ start, end });
  }
  return grown;
}

function wordAt(text: string, offset: number): Span {
  let [start, end] = [offset, offset];
  while (start > 0 && wordPart.test(text[start - 1] ?? "")) start--;
  while (end < text.length && wordPart.test(text[end] ?? "")) end++;
  return { start, end };
}

/** Every part of the tree around the offset, what stands between quotes and braces too. */
function* partsOf(node: unknown, text: string, offset: number): Iterable<Span> {
  if (Array.isArray(node)) {
    for (const each of node) yield* partsOf(each, text, offset);
    return;
  }
  if (!node || typeof node !== "object") return;
  if (isSpan(node)) {
    if (offset < node.start || offset > node.end) return;
    yield node;
    if (isWrapped(text, node) && node.start < offset && offset < node.end) yield { start: node.start + 1, end: node.end - 1 };
  }
  for (const part of Object.values(node)) if (part && typeof part === "object") yield* partsOf(part, text, offset);
}

function isSpan(node: object): node is Span {
  return "start" in node && "end" in node && typeof node.start === "number" && typeof node.end === "number";
}

function isWrapped(text: string, { start, end }: Span): boolean {
  const around = `${text[start]}${text[end - 1]}`;
  return end - start >= 2 && (around === '""' || around === "{}" || around === "[]");
}
