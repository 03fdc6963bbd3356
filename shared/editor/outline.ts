/** The outline of a text: its declarations and what is in them. No digits of a code are ever in it. */
import type {
  CodeCredential,
  Declaration,
  Entry,
  FittedDecl,
  Held,
  HolderDecl,
  KeypadDecl,
  ModelDecl,
  RelayDecl,
  SourceTree,
  Span,
  TagCredential,
  Word,
} from "../../grammar/tree.ts";

export type OutlineKind =
  | "use"
  | "site"
  | "policy"
  | "holder"
  | "code"
  | "tag"
  | "keypad"
  | "relay"
  | "entry"
  | "model"
  | "operation"
  | "factory"
  | "fitted"
  | "door"
  | "supply";

export interface OutlineItem extends Span {
  readonly kind: OutlineKind;
  /** Never empty. */
  readonly name: string;
  readonly detail?: string;
  /** The part of it that is shown when it is chosen. */
  readonly select: Span;
  readonly children: readonly OutlineItem[];
}

export function outlineOf(tree: SourceTree): readonly OutlineItem[] {
  return tree.declarations.map(itemOf);
}

function itemOf(declaration: Declaration): OutlineItem {
  switch (declaration.kind) {
    case "use":
      return item("use", declaration, declaration.path, "use", []);
    case "site":
      return item("site", declaration, declaration.label, "site", []);
    case "policy":
      return item("policy", declaration, undefined, "policy", []);
    case "holder":
      return named("holder", declaration, declaration.name, declaration.label?.text, credentials(declaration));
    case "keypad":
      return named("keypad", declaration, declaration.name, declaration.label?.text, relays(declaration));
    case "model":
      return named("model", declaration, declaration.name, declaration.label?.text, operations(declaration));
    case "fitted":
      return fitted(declaration);
    case "door":
      return item("door", declaration, declaration.label, "door", []);
    case "supply":
      return named("supply", declaration, declaration.name, declaration.label?.text, []);
  }
}

type Said = Span & { readonly keyword: Word };

function item(
  kind: OutlineKind,
  node: Said,
  title: (Span & { readonly text: string }) | undefined,
  otherwise: string,
  children: OutlineItem[],
) {
  const { start, end } = node;
  return { kind, start, end, name: title?.text || otherwise, select: spanOf(title ?? node.keyword), children };
}

function named(kind: OutlineKind, node: Said, name: Word | undefined, label: string | undefined, children: OutlineItem[]): OutlineItem {
  return { ...item(kind, node, name, kind, children), ...(label && { detail: label }) };
}

function spanOf({ start, end }: Span): Span {
  return { start, end };
}

function credentials({ facts }: HolderDecl): OutlineItem[] {
  const both = facts.filter((fact): fact is CodeCredential | TagCredential => fact.kind === "code" || fact.kind === "tag");
  return both.map(fact => ({
    ...item(fact.kind, fact, fact.name, fact.kind, []),
    ...(fact.kind === "tag" && fact.lost && { detail: "lost" }),
  }));
}

function relays({ facts }: KeypadDecl): OutlineItem[] {
  return facts
    .filter((fact): fact is RelayDecl => fact.kind === "relay")
    .map(relay => ({
      ...item("relay", relay, undefined, relayName(relay.numbers), relay.entries.map(entryItem)),
      ...(relay.label && { detail: relay.label.text }),
    }));
}

function relayName(numbers: readonly Word[]): string {
  return `relay ${numbers.map(({ text }) => text).join("+")}`.trim();
}

function entryItem(entry: Entry): OutlineItem {
  const held = [heldText(entry.held), entry.pair && `${entry.pair.mode} ${heldText(entry.pair.held)}`].filter(Boolean).join(" ");
  const { start, end } = entry;
  const name = [entry.slot?.text, held].filter(Boolean).join(" ") || "entry";
  return { kind: "entry", start, end, name, select: { start, end }, children: [] };
}

function heldText(held: Held | undefined): string {
  return held ? held.holder.text + (held.credential ? `.${held.credential.text}` : "") : "";
}

function operations({ facts }: ModelDecl): OutlineItem[] {
  return facts.flatMap((fact): OutlineItem[] => {
    const { start, end } = fact;
    if (fact.kind === "operation")
      return [{ kind: "operation", start, end, name: fact.operation, select: spanOf(fact.name), children: [] }];
    if (fact.kind === "setting-def") return [item("operation", fact, fact.label, "setting", [])];
    return fact.kind === "factory" ? [item("factory", fact, undefined, "factory", [])] : [];
  });
}

function fitted(declaration: FittedDecl): OutlineItem {
  const relays = declaration.facts.flatMap(fact =>
    fact.kind === "fitted-relay" ? [item("relay", fact, undefined, relayName(fact.numbers), [])] : [],
  );
  const known = declaration.unknown ? "unknown" : [declaration.date?.text, declaration.partly && "partly"].filter(Boolean).join(" ");
  const whole = named("fitted", declaration, declaration.keypad, known, relays);
  return { ...whole, name: `fitted ${declaration.keypad?.text ?? ""}`.trim() };
}
