/** What a text says, without where it says it: the same content for readers of other formats. Comments are not content. */
import { parse } from "../../grammar/parse.ts";
import type { SourceTree } from "../../grammar/tree.ts";
import { siteText } from "./generate.ts";

export type Content = string | boolean | readonly Content[] | { readonly [name: string]: Content };

/** Left out: places, and the first word and the braces of what `kind` names already. */
const places: ReadonlySet<string> = new Set(["start", "end", "keyword", "body"]);

export function contentOf(tree: SourceTree): Content {
  return contentIn(tree.declarations);
}

function contentIn(value: unknown): Content {
  if (typeof value === "string" || typeof value === "boolean") return value;
  if (Array.isArray(value)) return value.map(contentIn);
  const said = Object.entries(value as object).filter(([name]) => !places.has(name));
  const [first, ...more] = said;
  // A place alone is a word that stands there or not, a word with a place its text.
  if (!first) return true;
  if (more.length === 0 && first[0] === "text") return contentIn(first[1]);
  return Object.fromEntries(said.flatMap(([name, inner]) => (inner === undefined ? [] : [[name, contentIn(inner)]])));
}

/** The content of a generated site with its models, and nothing of the text. */
export function contentOfSite(lines: number): readonly Content[] {
  return contentOf(parse(siteText(lines, "inside")).tree) as readonly Content[];
}
