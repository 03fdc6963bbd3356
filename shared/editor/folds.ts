/** What can be folded away: blocks in braces, holders of several lines, runs of comments and of `use`. */
import type { ModelDecl, SourceTree, Span } from "../../grammar/tree.ts";

export interface Fold extends Span {
  readonly kind: "block" | "comment" | "uses";
}

/** `end` is where the last hidden line ends: for a block, before the line of its closing brace. */
export function foldsOf(tree: SourceTree, text: string): readonly Fold[] {
  const folds: Fold[] = [];
  const block = (body: Span | undefined) => {
    if (!body) return;
    const closed = text[body.end - 1] === "}" && body.end - 1 > body.start;
    const end = closed ? text.lastIndexOf("\n", body.end - 1) : body.end;
    if (end > body.start) folds.push({ kind: "block", start: body.start, end: text[end - 1] === "\r" ? end - 1 : end });
  };
  for (const declaration of tree.declarations) {
    if (declaration.kind === "holder") folds.push({ kind: "block", start: declaration.start, end: declaration.end });
    else if (declaration.kind === "site") block(bodyOf(declaration, text));
    else if (declaration.kind !== "use") block(declaration.body);
    if (declaration.kind === "keypad") for (const fact of declaration.facts) if (fact.kind === "relay") block(fact.body);
    if (declaration.kind === "fitted") for (const fact of declaration.facts) if (fact.kind === "fitted-relay") block(fact.body);
    if (declaration.kind === "model") for (const body of factoryBodies(declaration)) block(body);
  }
  folds.push(
    ...runs(
      "uses",
      tree.declarations.filter(({ kind }) => kind === "use"),
      text,
    ),
  );
  folds.push(
    ...runs(
      "comment",
      tree.comments.filter(({ alone }) => alone),
      text,
    ),
  );
  return folds.filter(({ start, end }) => text.slice(start, end).includes("\n"));
}

/** A site's braces are not in the tree. */
function bodyOf({ start, end }: Span, text: string): Span | undefined {
  const open = text.indexOf("{", start);
  return open >= 0 && open < end ? { start: open, end } : undefined;
}

function* factoryBodies({ facts }: ModelDecl): Iterable<Span | undefined> {
  for (const fact of facts) {
    if (fact.kind !== "factory") continue;
    yield fact.body;
    for (const inner of fact.facts) if (inner.kind === "fitted-relay") yield inner.body;
  }
}

/** Spans with nothing but blanks and one line break between them make one fold. */
function runs(kind: Fold["kind"], spans: readonly Span[], text: string): Fold[] {
  const found: Fold[] = [];
  for (const { start, end } of spans) {
    const last = found.at(-1);
    if (last && /^[ \t]*\r?\n[ \t]*$/.test(text.slice(last.end, start))) found[found.length - 1] = { kind, start: last.start, end };
    else found.push({ kind, start, end });
  }
  return found;
}
