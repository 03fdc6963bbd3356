/** Names where they are declared and where they are used: what "go to definition", "find references", highlights and rename all work on. */
import type {
  FittedFact,
  Held,
  HolderDecl,
  KeypadDecl,
  KeypadFact,
  ModelDecl,
  SourceTree,
  Span,
  Str,
  SupplyDecl,
  Word,
} from "../../grammar/tree.ts";
import type { Place } from "../finding.ts";
import type { Site } from "../site/site.ts";

export type Named =
  | { readonly what: "holder" | "keypad" | "model" | "door" | "supply"; readonly name: string }
  /** `code` and `tag` are the holder's unnamed ones; `""` is whichever of them `u1` alone means. */
  | { readonly what: "credential"; readonly holder: string; readonly name: string }
  | { readonly what: "setting"; readonly model: string; readonly name: string };

export interface Mention extends Span {
  readonly named: Named;
  readonly declares: boolean;
  /** Stands in no word of its own: `u1` alone also means the holder's unnamed code. */
  readonly implied?: true;
}

export type PlacedMention = Mention & Place;

const known = new WeakMap<SourceTree, readonly Mention[]>();

/** Every name in a text, in no particular order. */
export function mentionsIn(tree: SourceTree): readonly Mention[] {
  const before = known.get(tree);
  if (before) return before;
  const mentions = [...all(tree)];
  known.set(tree, mentions);
  return mentions;
}

/** The name that the cursor is in or touches. */
export function mentionAt(tree: SourceTree, offset: number): Mention | undefined {
  const here = mentionsIn(tree).filter(({ start, end, implied }) => !implied && start <= offset && offset <= end);
  // Between two names that touch (`u1.tag`), the one that begins here.
  return here.find(({ start }) => start === offset) ?? here[0];
}

/** Every place in a site where this is named, declared places first. */
export function mentionsOf(site: Site, named: Named): readonly PlacedMention[] {
  const wanted = keyOf(site, named);
  const found: PlacedMention[] = [];
  for (const { file, tree } of site.files)
    for (const mention of mentionsIn(tree)) if (keyOf(site, mention.named) === wanted) found.push({ ...mention, file });
  return found.sort((one, other) => Number(other.declares) - Number(one.declares));
}

/** Where this is declared. A door that nobody describes is where its label stands on a relay. */
export function definitionsOf(site: Site, named: Named): readonly PlacedMention[] {
  const mentions = mentionsOf(site, named);
  const declared = mentions.filter(mention => mention.declares);
  return declared.length > 0 || named.what !== "door" ? declared : mentions;
}

/** One text for all mentions of one thing. */
function keyOf(site: Site, named: Named): string {
  if (named.what === "credential") return `credential ${named.holder} ${named.name || unnamedOf(site, named.holder)}`;
  if (named.what === "setting") return `setting ${named.model} ${named.name}`;
  return `${named.what} ${named.name}`;
}

function unnamedOf(site: Site, holder: string): "code" | "tag" {
  const credentials = site.holders.get(holder)?.credentials ?? [];
  const has = (kind: "code" | "tag") => credentials.some(each => each.kind === kind && each.name === undefined);
  return has("code") || !has("tag") ? "code" : "tag";
}

function* all(tree: SourceTree): Iterable<Mention> {
  for (const declaration of tree.declarations) {
    switch (declaration.kind) {
      case "holder":
        yield* inHolder(declaration);
        break;
      case "keypad":
        yield* word("keypad", declaration.name, true);
        yield* word("model", declaration.model, false);
        yield* inKeypad(declaration);
        break;
      case "fitted": {
        yield* word("keypad", declaration.keypad, false);
        const model = declaration.facts.find(fact => fact.kind === "model-ref")?.name;
        yield* word("model", model, false);
        yield* settings(declaration.facts, model);
        break;
      }
      case "model":
        yield* word("model", declaration.name, true);
        yield* inModel(declaration);
        break;
      case "door":
        yield* label(declaration.label, true);
        break;
      case "supply":
        yield* word("supply", declaration.name, true);
        yield* inSupply(declaration);
        break;
    }
  }
}

function* inHolder({ name, facts }: HolderDecl): Iterable<Mention> {
  yield* word("holder", name, true);
  if (!name) return;
  for (const fact of facts) {
    if (fact.kind !== "code" && fact.kind !== "tag") continue;
    const named: Named = { what: "credential", holder: name.text, name: fact.name?.text ?? fact.kind };
    const { start, end } = fact.name ?? fact.keyword;
    yield { start, end, named, declares: true };
  }
}

function* inKeypad({ facts, model }: KeypadDecl): Iterable<Mention> {
  for (const fact of facts) {
    if (fact.kind === "installer" || fact.kind === "all-relay") yield* held(fact.held);
    if (fact.kind !== "relay") continue;
    yield* label(fact.label, false);
    for (const entry of fact.entries) {
      yield* held(entry.held);
      yield* held(entry.pair?.held);
    }
  }
  yield* settings(facts, model);
}

function* held(use: Held | undefined): Iterable<Mention> {
  if (!use) return;
  const holder = use.holder.text;
  yield* word("holder", use.holder, false);
  const { start, end } = use.credential ?? use.holder;
  if (use.credential) yield { start, end, named: { what: "credential", holder, name: use.credential.text }, declares: false };
  else if (!use.dot) yield { start, end, named: { what: "credential", holder, name: "" }, declares: false, implied: true };
}

function* inModel({ name, facts }: ModelDecl): Iterable<Mention> {
  if (!name) return;
  for (const fact of facts) {
    if (fact.kind === "setting-def" && fact.label) yield setting(name.text, fact.label, true);
    if (fact.kind === "factory") yield* settings(fact.facts, name);
  }
}

function* settings(facts: readonly (KeypadFact | FittedFact)[], model: Word | undefined): Iterable<Mention> {
  if (!model) return;
  for (const fact of facts) if (fact.kind === "setting" && fact.label) yield setting(model.text, fact.label, false);
}

function setting(model: string, { start, end, text }: Str, declares: boolean): Mention {
  return { start, end, named: { what: "setting", model, name: text }, declares };
}

function* inSupply({ facts }: SupplyDecl): Iterable<Mention> {
  for (const fact of facts)
    for (const fed of fact.feeds) {
      if ("door" in fed) yield* label(fed.door, false);
      else yield* word("keypad", fed.keypad, false);
    }
}

function* word(what: "holder" | "keypad" | "model" | "supply", name: Word | undefined, declares: boolean): Iterable<Mention> {
  if (name) yield { start: name.start, end: name.end, named: { what, name: name.text }, declares };
}

function* label(text: Str | undefined, declares: boolean): Iterable<Mention> {
  if (text) yield { start: text.start, end: text.end, named: { what: "door", name: text.text }, declares };
}
