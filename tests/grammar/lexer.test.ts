/** The lexer's definition is sound, and what it is told of first characters is true: a lexer that is told nothing reads alike. */
import { globSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { TokenType } from "chevrotain";
import { createToken, Lexer } from "chevrotain";
import fc from "fast-check";
import { expect, test } from "vitest";
import { lex, lexedTypes } from "../../grammar/lexer.ts";
import { LineComment } from "../../grammar/tokens.ts";

const root = join(import.meta.dirname, "../..");

/** The same look, without the first characters, so that it is tried at every place. */
function untold({ name, PATTERN, GROUP }: TokenType): TokenType {
  return createToken({
    name,
    ...(PATTERN !== undefined && { pattern: PATTERN }),
    ...(GROUP !== undefined && { group: GROUP }),
    line_breaks: true,
  });
}

const lexer = new Lexer(lexedTypes.map(untold), { positionTracking: "onlyOffset" });

test("the definition has no mistake that Chevrotain finds", () => {
  expect(lexer.lexerDefinitionErrors).toEqual([]);
});

function theirs(text: string): readonly string[] {
  const { tokens, groups, errors } = lexer.tokenize(text);
  expect(errors).toEqual([]);
  const comments = groups.comments?.map(({ startOffset, image }) => `${startOffset} ${LineComment.name} ${image}`) ?? [];
  return [...tokens.map(({ startOffset, tokenType, image }) => `${startOffset} ${tokenType.name} ${image}`), ...comments];
}

function ours(text: string): readonly string[] {
  const { tokens, comments } = lex(text);
  return [...tokens, ...comments].map(({ startOffset, tokenType, image }) => `${startOffset} ${tokenType.name} ${image}`);
}

test("every sample", () => {
  const files = globSync("samples/**/*.mullion", { cwd: root });
  expect(files.length).toBeGreaterThan(9);
  for (const file of files) {
    const text = readFileSync(join(root, file), "utf8");
    expect(ours(text), file).toEqual(theirs(text));
  }
});

test("every character, before and behind others", () => {
  for (let begin = 0; begin < 0x10000; begin += 256) {
    const text = Array.from(
      { length: 256 },
      (_, code) => `a${String.fromCharCode(begin + code)}1 ${String.fromCharCode(begin + code)}-2`,
    ).join("\n");
    expect(ours(text), `from ${begin.toString(16)}`).toEqual(theirs(text));
  }
});

test("any text made of what means something", () => {
  const piece = fc.constantFrom(
    ...'""/*-.,{}[]:=+|#%_\\ \t\r\n0123xXaZé“”„‟\u00a0\u1680\u2028\ufeff\u{1f511}',
    ...["//", "/*", "*/", "..", "0x7B", "12,3", "2027-03-31", "1.5", "-4", "[wait 3s]", "relay", 'say "so"'],
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 40 }), pieces => {
      const text = pieces.join("");
      expect(ours(text)).toEqual(theirs(text));
    }),
    { numRuns: 3000 },
  );
});
