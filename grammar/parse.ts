/** Text to tree: never throws, in time that grows with the text's length. */
import { withoutConflicts } from "./conflicts.ts";
import { MullionParser } from "./parser.ts";
import { tokenize } from "./tokenize.ts";
import type { Element, Parsed, Problem } from "./tree.ts";

/** UTF-16 units. A site of 200,000 lines has about six million; what is longer is no site's text. */
export const longestText = 16 * 1024 * 1024;

let parser: MullionParser | undefined;

/**
 * Parses any text.
 *
 * @returns the tree of what could be understood, and every problem in the order of the text. A text longer than
 * `longestText` has an empty tree and one problem.
 */
export function parse(text: string): Parsed {
  if (text.length > longestText) return tooLong(text);
  const { text: read, problems: conflicts } = withoutConflicts(text);
  const { tokens, comments, problems } = tokenize(read);
  parser ??= new MullionParser();
  const result = parser.read(read, tokens);
  const tree = { kind: "file", start: 0, end: text.length, declarations: result.declarations, comments } as const;
  const others = result.unknownUnits.size === 0 ? problems : problems.filter(problem => !result.unknownUnits.has(problem.start));
  return { tree, problems: inOrder([...conflicts, ...others, ...result.problems]) };
}

/** Parses keys as written in a model or for a replay: `7 4 01 {code} OK [present tag]`. Same promises as `parse`. */
export function parseKeys(text: string): { readonly elements: readonly Element[]; readonly problems: readonly Problem[] } {
  if (text.length > longestText) return { elements: [], problems: tooLong(text).problems };
  const { tokens, problems } = tokenize(text);
  parser ??= new MullionParser();
  const result = parser.readKeys(text, tokens);
  return { elements: result.elements, problems: inOrder([...problems, ...result.problems]) };
}

function tooLong(text: string): Parsed {
  const megabytes = longestText / (1024 * 1024);
  const message = `the text is longer than ${megabytes} million characters and was not read`;
  const tree = { kind: "file", start: 0, end: text.length, declarations: [], comments: [] } as const;
  return { tree, problems: [{ code: "syntax", start: 0, end: 0, message }] };
}

/** Problems in the order of the text; of several at one place, which come from one slip, the first. */
function inOrder(problems: Problem[]): Problem[] {
  if (problems.length < 2) return problems;
  problems.sort((a, b) => a.start - b.start);
  return problems.filter((problem, index) => index === 0 || problem.start !== problems[index - 1]?.start);
}
