/** Mullion inside other languages: fences in Markdown, tagged templates in TypeScript. */
import { describe, expect, test } from "vitest";
import { colour, pieces } from "./support/textmate.ts";

describe("a fence in Markdown", () => {
  const text = 'Before\n```mullion\nholder u1 "Unit 1" code 48291\n```\nAfter\n```text\nholder u2 "Unit 2"\n```';

  test("is coloured to its end and no further", async () => {
    expect(await pieces(text, "entity.name.holder", "text.html.markdown")).toEqual(["u1"]);
    expect(await pieces(text, "paragraph", "text.html.markdown")).toEqual(["Before", "After"]);
  });

  test("ends even when its last line is half typed", async () => {
    const half = '~~~ Mullion\nkeypad gate "Lane\n~~~\nAfter';
    expect(await pieces(half, "paragraph", "text.html.markdown")).toEqual(["After"]);
    expect(await pieces(half, "entity.name.keypad", "text.html.markdown")).toEqual(["gate"]);
  });
});

describe("a tagged template in TypeScript", () => {
  const tick = "`";

  test("on one line", async () => {
    const text = `const a = mullion${tick}holder u1 "Unit 1"${tick}; const b = 1;`;
    expect(await pieces(text, "entity.name.holder", "source.ts")).toEqual(["u1"]);
    expect(await pieces(text, "keyword", "source.ts")).toEqual(["const", "const"]);
  });

  test("over several lines, with the closing tick on the last", async () => {
    const text = `const a = mullion${tick}\n  holder u1 "Unit 1"\n  keypad k "K" : m {\n  }${tick};\nconst b = 1;`;
    expect(await pieces(text, "entity.name.holder", "source.ts")).toEqual(["u1"]);
    expect(await pieces(text, "punctuation.section.block", "source.ts")).toEqual(["{", "}"]);
    expect(await pieces(text, "keyword", "source.ts")).toEqual(["const", "const"]);
  });

  test("with a marked finding under a line", async () => {
    const text = `mullion${tick}\n  holder u1 "Unit 1"\n       //^^ holder-idle\n${tick}`;
    expect(await pieces(text, "comment.line.double-slash", "source.ts")).toEqual(["^^ holder-idle"]);
  });

  test("leaves other templates and comments alone", async () => {
    const text = `const a = ${tick}holder u1${tick};\n// mullion${tick}holder u2${tick}`;
    expect((await colour(text, "source.ts")).some(piece => piece.scopes.includes("meta.embedded.block.mullion"))).toBe(false);
  });
});
