/** The language's words are the same in the parser and in the editor's grammar. */
import { readFile } from "node:fs/promises";
import { expect, test } from "vitest";
import { fieldNames, keywords, units } from "../../grammar/tokens.ts";
import { grammarFile } from "./support/textmate.ts";

interface Rule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly captures?: Record<string, { readonly name: string }>;
  readonly beginCaptures?: Record<string, { readonly name: string }>;
}

/** Scopes of words that stand in the text literally. */
const wordScopes = /^(?:storage\.type|keyword\.|support\.function|constant\.language)/;

test("no word is known to one of them only", async () => {
  const { repository } = JSON.parse(await readFile(grammarFile("mullion"), "utf8")) as { repository: Record<string, Rule> };
  const coloured = new Set(Object.values(repository).flatMap(literalWords));
  const known = new Set<string>([...keywords, ...fieldNames, ...units]);
  // `allow` is a word of comments too, and `%` is no word.
  expect([...coloured].filter(word => !known.has(word)).sort(), "coloured, but not of the language").toEqual([]);
  expect([...known].filter(word => !coloured.has(word)).sort(), "of the language, but not coloured").toEqual([]);
});

/** The words that a rule's pattern spells out, where the rule gives them a word's scope. */
function literalWords(rule: Rule): string[] {
  const pattern = rule.match ?? rule.begin ?? "";
  const scopes = [rule.name, ...Object.values({ ...rule.captures, ...rule.beginCaptures }).map(capture => capture.name)];
  if (!scopes.some(scope => scope && wordScopes.test(scope))) return [];
  const spelled = pattern
    .replace(/\(\?<?[:=!]/g, "(")
    .replace(/\[[^\]]*\]/g, " ")
    .replace(/\\./g, " ");
  return spelled.match(/[A-Za-z°][A-Za-z0-9²-]*[A-Za-z0-9²]|[A-Za-z%]/g) ?? [];
}
