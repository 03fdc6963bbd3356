/** The way from the file down to what stands at an offset. */
import type { SourceTree, Span } from "./tree.ts";

/**
 * Every node around an offset, outermost (the file) first. A node holds the offset behind its last character too, since that is
 * where a cursor stands that has just typed it; of two that meet there, the later one is taken.
 *
 * Bare spans (`lost`, a dot, the braces of a body) are no nodes.
 */
export function pathTo(tree: SourceTree, offset: number): readonly Span[] {
  const path: Span[] = [];
  let node: Span | undefined = tree;
  while (node !== undefined) {
    path.push(node);
    node = childAt(node, offset);
  }
  return path;
}

function childAt(node: object, offset: number): Span | undefined {
  let found: Span | undefined;
  for (const value of Object.values(node)) {
    for (const child of nodesIn(value)) {
      if (child.start <= offset && offset <= child.end && (found === undefined || child.start >= found.start)) found = child;
    }
  }
  return found;
}

/** Nodes among a property's value; what has no place of its own (the tag of a record's entry) is looked through. */
function* nodesIn(value: unknown): Generator<Span> {
  if (typeof value !== "object" || value === null) return;
  if (Array.isArray(value)) for (const each of value) yield* nodesIn(each);
  else if (!isSpan(value)) for (const each of Object.values(value)) yield* nodesIn(each);
  else if (Object.keys(value).length > 2) yield value;
}

function isSpan(value: object): value is Span {
  return "start" in value && "end" in value;
}
