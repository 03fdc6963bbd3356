/** Every text is cut where Chevrotain's lexer, given the same patterns one after the other, cuts it. */
import { globSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { CustomPatternMatcherReturn, TokenType } from "chevrotain";
import { createToken, Lexer } from "chevrotain";
import fc from "fast-check";
import { expect, test } from "vitest";
import type { Way } from "../../grammar/cut.ts";
import { cut, ways } from "../../grammar/cut.ts";
import { LineComment, Other } from "../../grammar/tokens.ts";

const root = join(import.meta.dirname, "../..");

/** What a way cuts, for a lexer that tries each of them at every place. */
function typeFor({ what, first, pattern, extent }: Way): TokenType {
  const exec = (text: string, at: number): CustomPatternMatcherReturn | null => {
    const end = first.includes(text.charAt(at)) ? extent(text, at) : at;
    return end > at ? [text.slice(at, end)] : null;
  };
  const name = what === "space" || what === "comment" ? what : what.name;
  return createToken({
    name,
    pattern: pattern ? new RegExp(pattern.source) : { exec },
    line_breaks: true,
    ...(what === "space" && { group: Lexer.SKIPPED }),
    ...(what === "comment" && { group: "comments" }),
  });
}

const lexer = new Lexer([...ways.map(typeFor), createToken({ name: Other.name, pattern: /[\u0000-\uffff]/, line_breaks: true })], {
  positionTracking: "onlyOffset",
});

function theirs(text: string): readonly string[] {
  const { tokens, groups, errors } = lexer.tokenize(text);
  expect(errors).toEqual([]);
  const comments = groups.comments?.map(({ startOffset, image }) => `${startOffset} ${LineComment.name} ${image}`) ?? [];
  return [...tokens.map(({ startOffset, tokenType, image }) => `${startOffset} ${tokenType.name} ${image}`), ...comments];
}

function ours(text: string): readonly string[] {
  const { tokens, comments } = cut(text);
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
