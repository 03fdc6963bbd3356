/** What is said of the place under the cursor: keys and what must be seen on an entry, ways in on a holder, meaning on a word. */
import { keywords } from "../../grammar/tokens.ts";
import type { Declaration, ModelDecl, ModelFact, SourceTree, Span } from "../../grammar/tree.ts";
import type { SourceFile } from "../finding.ts";
import type { CannotPlan, Plan } from "../plan/plan.ts";
import { exampleOf, exampleOfSetting } from "../sheet/example.ts";
import { spaced } from "../sheet/remarks.ts";
import type { Day, Keypad, Site } from "../site/site.ts";
import { doorWords, supplyWords } from "./door-words.ts";
import { credentialLine, holderWords } from "./holder-words.ts";
import { keypadAt, keypadLines } from "./keypad-lines.ts";
import { keypadWords, modelWords } from "./keypad-words.ts";
import { lineWords } from "./line-words.ts";
import { plain, verbatim } from "./markdown.ts";
import { meaningOf, meaningOfField } from "./meanings.ts";
import type { Mention } from "./names.ts";
import { mentionAt } from "./names.ts";
import { tagWords } from "./tag-words.ts";

export interface Asked {
  readonly site: Site;
  readonly source: SourceFile;
  readonly offset: number;
  readonly today: Day;
  readonly maskCodes: boolean;
  plan(keypad: Keypad): Plan | CannotPlan | undefined;
}

export interface Said extends Span {
  readonly markdown: string;
}

export function hoverAt(asked: Asked): Said | undefined {
  const { source, offset } = asked;
  if (source.tree.comments.some(({ start, end }) => start < offset && offset <= end)) return undefined;
  const tag = tagAt(asked);
  if (tag) return tag;
  const mention = mentionAt(source.tree, offset);
  const named = mention && nameWords(asked, mention);
  const line = lineAt(asked);
  if (line && named && mention?.named.what === "holder") return { ...line, markdown: `${line.markdown}\n\n---\n\n${named}` };
  // Where an unnamed code or tag is declared, the word says what it is and the holder where it opens.
  if (mention && named) return { start: mention.start, end: mention.end, markdown: named };
  return line ?? operationAt(asked) ?? wordAt(asked);
}

/** On the number of a holder's tag. */
function tagAt({ site, source, offset, today }: Asked): Said | undefined {
  const decl = declarationAt(source.tree, offset);
  const fact =
    decl?.kind === "holder" ? decl.facts.find(each => each.kind === "tag" && each.number && within(each.number, offset)) : undefined;
  if (decl?.kind !== "holder" || fact?.kind !== "tag" || !fact.number) return undefined;
  const credential = site.holders.get(decl.name?.text ?? "")?.credentials.find(({ node }) => node === fact);
  const markdown = credential?.tag === undefined ? undefined : tagWords(credential.tag, fact.number.text);
  return markdown === undefined || !credential
    ? undefined
    : { start: fact.number.start, end: fact.number.end, markdown: `${markdown}\n\n---\n\n${credentialLine(site, credential, today)}` };
}

function lineAt({ site, source, offset, maskCodes }: Asked): Said | undefined {
  const keypad = keypadAt(site, source.file, offset);
  if (!keypad) return undefined;
  for (const line of keypadLines(site, keypad, { hideCodes: maskCodes }))
    if (line.start <= offset && offset <= line.end) return { start: line.start, end: line.end, markdown: lineWords(line.preview()) };
  return undefined;
}

function nameWords({ site, today, plan }: Asked, { named }: Mention): string | undefined {
  switch (named.what) {
    case "holder": {
      const holder = site.holders.get(named.name);
      return holder && holderWords(site, holder, today);
    }
    case "credential": {
      const holder = site.holders.get(named.holder);
      const unnamed = named.name === "code" || named.name === "tag";
      const credential = holder?.credentials.find(({ name, kind }) =>
        unnamed ? name === undefined && kind === named.name : name === named.name,
      );
      return credential && `**${plain(credential.holder.label || credential.holder.id)}**\n\n${credentialLine(site, credential, today)}`;
    }
    case "keypad": {
      const keypad = site.keypads.get(named.name);
      return keypad && keypadWords(keypad, plan(keypad));
    }
    case "model": {
      const model = site.models.get(named.name);
      return model && modelWords(site, model);
    }
    case "door":
      return doorWords(site, named.name);
    case "supply":
      return supplyWords(site, named.name);
    default:
      return undefined;
  }
}

/* In models */

function operationAt({ site, source, offset }: Asked): Said | undefined {
  const decl = source.tree.declarations.find((each): each is ModelDecl => each.kind === "model" && within(each, offset));
  const fact = decl?.facts.find(each => within(each, offset));
  const model = decl?.name && site.models.get(decl.name.text);
  if (!fact || (fact.kind !== "operation" && fact.kind !== "setting-def" && fact.kind !== "cancel")) return undefined;
  const field = fieldAt(fact, offset);
  if (field || fact.kind === "cancel") return field;
  const words = fact.kind === "operation" ? fact.operation : fact.keyword.text;
  const keys = model && (fact.kind === "operation" ? exampleOf(model, fact.operation) : exampleOfSetting(model, fact.label?.text ?? ""));
  const meaning = meaningOf(fact.keyword.text, "model");
  const example = keys && keys.length > 0 ? `For example: ${verbatim(spaced(keys))}` : undefined;
  const shows = fact.shows?.text ? `Must be seen: **${plain(fact.shows.text)}**.` : undefined;
  const markdown = [`**${plain(words)}**`, meaning, example, shows].filter(Boolean).join("\n\n");
  return { start: fact.start, end: fact.end, markdown };
}

function fieldAt(fact: Extract<ModelFact, { kind: "operation" | "setting-def" | "cancel" }>, offset: number): Said | undefined {
  const element = fact.template.find(each => within(each, offset));
  if (element?.kind !== "field") return undefined;
  const meaning = meaningOfField(element.name.text);
  return meaning === undefined
    ? undefined
    : { start: element.start, end: element.end, markdown: `${verbatim(`{${element.name.text}}`)} ${meaning}` };
}

/* Words of the language */

const known: ReadonlySet<string> = new Set(keywords);

function wordAt({ source: { text, tree }, offset }: Asked): Said | undefined {
  const [start, end] = wordAround(text, offset);
  const word = text.slice(start, end);
  if (!known.has(word) || isQuoted(text, start)) return undefined;
  const meaning = meaningOf(word, declarationAt(tree, offset)?.keyword.text ?? "");
  return meaning === undefined ? undefined : { start, end, markdown: `**${plain(word)}** ${meaning}` };
}

function wordAround(text: string, offset: number): readonly [number, number] {
  const part = /[A-Za-z0-9_-]/;
  let [start, end] = [offset, offset];
  while (start > 0 && part.test(text[start - 1] ?? "")) start--;
  while (end < text.length && part.test(text[end] ?? "")) end++;
  return [start, end];
}

function isQuoted(text: string, offset: number): boolean {
  const line = text.slice(text.lastIndexOf("\n", offset - 1) + 1, offset);
  return [...line.replaceAll(/\\./g, "")].filter(sign => sign === '"').length % 2 === 1;
}

function declarationAt(tree: SourceTree, offset: number): Declaration | undefined {
  return tree.declarations.find(each => within(each, offset));
}

function within({ start, end }: Span, offset: number): boolean {
  return start <= offset && offset <= end;
}
