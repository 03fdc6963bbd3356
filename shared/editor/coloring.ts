/** What every word of a text is, for colouring by meaning: a name of a holder is not a keyword that is spelt alike. */
import { longestText } from "../../grammar/parse.ts";
import { tokenize } from "../../grammar/tokenize.ts";
import { fieldNames, keywords } from "../../grammar/tokens.ts";
import type { Element, ModelDecl, SourceTree, Span } from "../../grammar/tree.ts";
import type { Named } from "./names.ts";
import { mentionsIn } from "./names.ts";

/** Kinds of words, by the protocol's standard names where one fits. */
export const colorKinds = [
  "comment",
  "string",
  "keyword",
  "number",
  "operator",
  /** A keypad model. */
  "type",
  /** A keypad, a supply. */
  "class",
  /** A holder. */
  "variable",
  /** A named code or tag of a holder. */
  "property",
  /** An operation of a model. */
  "function",
  /** A field in an operation's keys. */
  "parameter",
  /** A named key. */
  "enumMember",
  /** What the hand does. */
  "event",
] as const;
export type ColorKind = (typeof colorKinds)[number];

export const colorModifiers = ["declaration", "deprecated"] as const;
export type ColorModifier = (typeof colorModifiers)[number];

export interface ColoredWord extends Span {
  readonly kind: ColorKind;
  readonly modifiers: readonly ColorModifier[];
}

const ofName: Record<Named["what"], ColorKind> = {
  holder: "variable",
  credential: "property",
  keypad: "class",
  supply: "class",
  model: "type",
  door: "string",
  setting: "string",
};

const words: ReadonlySet<string> = new Set(keywords);
const signs = new Set(["..", "|", "+", "=", ":", "."]);

/** In the order of the text; no two overlap, and none spans a line break. */
export function coloredWords(text: string, tree: SourceTree): readonly ColoredWord[] {
  // What was not read has no meaning to colour.
  if (text.length > longestText) return [];
  const meant = meanings(tree);
  const colored: ColoredWord[] = [];
  for (const { startOffset: start, image } of tokenize(text).tokens) {
    const end = start + image.length;
    const meaning = meant.get(start);
    if (meaning && meaning.end >= end) colored.push({ ...meaning, start, end });
    else {
      const kind = kindOf(image);
      if (kind) colored.push({ start, end, kind, modifiers: [] });
    }
  }
  for (const { start, end } of tree.comments) colored.push({ start, end, kind: "comment", modifiers: [] });
  return colored.sort((one, other) => one.start - other.start).filter(({ start, end }) => !text.slice(start, end).includes("\n"));
}

function kindOf(image: string): ColorKind | undefined {
  if (/^["“”„‟]/.test(image)) return "string";
  if (/^-?\d/.test(image)) return "number";
  if (image.startsWith("[")) return "event";
  if (image === "*" || image === "#" || /^[A-Z][A-Z0-9_-]*$/.test(image)) return "enumMember";
  if (words.has(image)) return "keyword";
  return signs.has(image) ? "operator" : undefined;
}

type Meaning = Pick<ColoredWord, "end" | "kind" | "modifiers">;

/** Words whose meaning the tree knows, by where they begin. */
function meanings(tree: SourceTree): ReadonlyMap<number, Meaning> {
  const meant = new Map<number, Meaning>();
  const set = ({ start, end }: Span, kind: ColorKind, ...modifiers: ColorModifier[]) => meant.set(start, { end, kind, modifiers });
  for (const { named, declares, implied, start, end } of mentionsIn(tree)) {
    // The word `code` of an unnamed code declares it and is still a keyword.
    const unnamed = named.what === "credential" && declares && (named.name === "code" || named.name === "tag");
    if (!implied && !unnamed) set({ start, end }, ofName[named.what], ...(declares ? (["declaration"] as const) : []));
  }
  for (const declaration of tree.declarations) {
    if (declaration.kind === "holder") {
      for (const fact of declaration.facts) if (fact.kind === "tag" && fact.lost && fact.number) set(fact.number, "number", "deprecated");
    }
    if (declaration.kind === "model") inModel(declaration, set);
  }
  return meant;
}

function inModel({ facts }: ModelDecl, set: (span: Span, kind: ColorKind) => void): void {
  for (const fact of facts) {
    if (fact.kind === "operation") for (const word of wordsOf(fact.name, fact.operation)) set(word, "function");
    if (fact.kind === "operation" || fact.kind === "setting-def" || fact.kind === "cancel")
      for (const element of fact.template) inTemplate(element, set);
    if (fact.kind === "keys") for (const { from, to } of fact.keys) for (const key of to ? [from, to] : [from]) set(key, keyKind(key.text));
  }
}

function inTemplate(element: Element, set: (span: Span, kind: ColorKind) => void): void {
  if (element.kind === "field") {
    if ((fieldNames as readonly string[]).includes(element.name.text)) set(element.name, "parameter");
  } else if (element.kind === "keys") set(element, keyKind(element.text));
}

function keyKind(text: string): ColorKind {
  return /^\d/.test(text) ? "number" : "enumMember";
}

/** `put code` has a span of two words; each is coloured. The blanks between them may be several, so the second is found from the end. */
function wordsOf({ start, end }: Span, operation: string): Span[] {
  const parts = operation.split(" ");
  const [one = "", other] = parts;
  return other === undefined
    ? [{ start, end }]
    : [
        { start, end: start + one.length },
        { start: end - other.length, end },
      ];
}
