/** Words of the language that the grammar allows at the cursor. */
import { expectedAt } from "../../../grammar/expected.ts";
import type { Declaration } from "../../../grammar/tree.ts";
import { meaningOf } from "../meanings.ts";
import type { Cursor } from "./cursor.ts";
import type { Suggestion } from "./suggestion.ts";

/** The word that the grammar names first where a new line of a block begins. From it on, what it allows is of the next line. */
const firstOfBlock: Readonly<Partial<Record<Declaration["kind"], readonly string[]>>> = {
  site: ["address"],
  keypad: ["relay"],
  model: ["keys", "relay"],
  fitted: ["model", "relay"],
  door: ["lock"],
  supply: ["battery"],
  policy: ["weak codes"],
};

export function keywordSuggestions({ source, offset, declaration, inBody, isFirst }: Cursor): readonly Suggestion[] {
  const allowed = expectedAt(source.text, offset).allowed.flatMap(each => (each.kind === "keyword" ? [each.word] : []));
  // Inside a line only what goes on with that line, though another fact could follow on it.
  const next = (inBody && declaration && firstOfBlock[declaration.kind]) || ["use"];
  const end = isFirst ? -1 : allowed.findIndex(word => next.includes(word));
  const words = end < 0 ? allowed : allowed.slice(0, end);
  return words.map((word, index): Suggestion => {
    const first = word.split(" ")[0] ?? word;
    const about = meaningOf(first, "") === undefined ? {} : { about: { what: "word", name: first } as const };
    return { kind: "keyword", label: word, rank: 600 + index, ...about };
  });
}
