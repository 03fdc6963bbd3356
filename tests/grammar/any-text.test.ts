/** Whatever the text: no exception, every place inside it, the formatter steady, time in step with length. */
import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectedAt } from "../../grammar/expected.ts";
import { isSame, layOut } from "../../grammar/format.ts";
import { longestText, parse, parseKeys } from "../../grammar/parse.ts";
import { pathTo } from "../../grammar/path.ts";
import { keywords } from "../../grammar/tokens.ts";
import type { Span } from "../../grammar/tree.ts";
import { meaningOf } from "./meaning.ts";

const folder = new URL("fixtures/", import.meta.url);
const examples = readdirSync(folder).map(name => readFileSync(new URL(name, folder), "utf8"));

function checkText(text: string): void {
  const parsed = parse(text);
  const { tree, problems } = parsed;
  checkPlaces(tree, { start: 0, end: text.length });
  for (const problem of problems) {
    checkInside(problem, { start: 0, end: text.length });
    for (const place of problem.related ?? []) checkInside(place, { start: 0, end: text.length });
    expect(problem.message).not.toMatch(/undefined|NaN|EOF|token|\bTRUE\b|Recording/);
  }
  expect(problems.map(problem => problem.start)).toEqual(problems.map(problem => problem.start).sort((a, b) => a - b));
  if (problems.length > 0) return;
  const once = layOut(text, parsed);
  const again = parse(once);
  expect(isSame(parsed, again)).toBe(true);
  expect(layOut(once, again)).toBe(once);
}

/** Every node lies inside the one around it. A code's `until` on a later line may stand behind other facts. */
function checkPlaces(node: unknown, around: Span): void {
  if (typeof node !== "object" || node === null) return;
  const isNode = "start" in node && "end" in node;
  if (isNode) checkInside(node as Span, around);
  for (const value of Object.values(node)) checkPlaces(value, isNode ? (node as Span) : around);
}

function checkInside({ start, end }: Span, around: Span): void {
  if (start >= around.start && start <= end && end <= around.end) return;
  throw new Error(`${start} to ${end} is not inside ${around.start} to ${around.end}`);
}

describe("the example texts", () => {
  for (const [index, text] of examples.entries()) {
    it(`${index + 1} cut off anywhere`, () => {
      for (let length = 0; length < text.length; length++) checkText(text.slice(0, length));
    });

    it(`${index + 1} without any one line`, () => {
      const lines = text.split("\n");
      for (let line = 0; line < lines.length; line++) checkText([...lines.slice(0, line), ...lines.slice(line + 1)].join("\n"));
    });

    it(`${index + 1} on one line`, () => {
      const one = parse(text.replace(/\/\/.*/g, "").replaceAll("\n", " "));
      expect(one.problems).toEqual([]);
      expect(meaningOf(one.tree.declarations)).toBe(meaningOf(parse(text).tree.declarations));
    });

    it(`${index + 1} with a cursor anywhere`, () => {
      const { tree } = parse(text);
      for (let offset = 0; offset <= text.length; offset += 3) {
        const { start, end } = expectedAt(text, offset);
        checkInside({ start, end }, { start: 0, end: text.length });
        expect(start).toBeLessThanOrEqual(offset);
        expect(pathTo(tree, offset)[0]).toBe(tree);
      }
    });
  }
});

const words = fc.constantFrom(
  ...keywords,
  ...[
    '"a b"',
    '"',
    '"\\"x"',
    "{",
    "}",
    ":",
    "..",
    ".",
    "+",
    "=",
    ",",
    "|",
    "*",
    "#",
    "%",
    "[present tag]",
    "[",
    "]",
    "// c\n",
    "// allow x: y\n",
    "/*",
    "*/",
  ],
  ...[
    "01",
    "5s",
    "48291",
    "123,00334",
    "0x7B01",
    "2027-03-31",
    "12 V",
    "0.75",
    "u1",
    "OK",
    "B",
    "ü",
    "\ud800",
    "\0",
    "“",
    "{slot}",
    "{tag:3+5}",
  ],
  ...["\n", "\r\n", "\r", "\n\n", "\n  ", "\t", " ", "\u00a0", "\ufeff", "<<<<<<< a\n", "=======\n", ">>>>>>> b\n"],
);
const wordy = fc.array(fc.tuple(words, fc.constantFrom(" ", "", "\n", "\n  ")), { maxLength: 60 }).map(pairs => pairs.flat().join(""));
const mutated = fc
  .tuple(
    fc.constantFrom(...examples),
    fc.array(fc.tuple(fc.nat(), fc.nat({ max: 8 }), fc.oneof(words, fc.constant(""))), { minLength: 1, maxLength: 4 }),
  )
  .map(([text, changes]) =>
    changes.reduce((before, [at, length, by]) => {
      const place = at % (before.length + 1);
      return before.slice(0, place) + by + before.slice(place + length);
    }, text),
  );

describe("made-up texts", () => {
  it("of words of the language", () => {
    fc.assert(fc.property(wordy, checkText), { numRuns: 2000 });
  });

  it("of examples with a few changes", () => {
    fc.assert(fc.property(mutated, checkText), { numRuns: 700 });
  });

  it("of any characters", () => {
    fc.assert(fc.property(fc.string({ unit: "binary", maxLength: 200 }), checkText), { numRuns: 1000 });
  });

  it("read as keys", () => {
    fc.assert(
      fc.property(wordy, text => {
        const { elements, problems } = parseKeys(text);
        for (const place of [...elements, ...problems]) checkInside(place, { start: 0, end: text.length });
      }),
      { numRuns: 500 },
    );
  });

  it("with a cursor in them", () => {
    fc.assert(
      fc.property(mutated, fc.nat(), (text, at) => {
        const offset = at % (text.length + 1);
        const { start, end, typed } = expectedAt(text, offset);
        checkInside({ start, end }, { start: 0, end: text.length });
        expect(text.slice(start, offset)).toBe(typed);
      }),
      { numRuns: 300 },
    );
  });
});

describe("unusual files", () => {
  it("an empty one has nothing and no problem", () => {
    for (const text of ["", "\ufeff", " \t\r\n", "\r", "\v\f\u00a0\u2028"])
      expect(parse(text)).toMatchObject({ tree: { declarations: [], comments: [] }, problems: [] });
  });

  it("a byte order mark, line ends of every kind and tabs change nothing but places", () => {
    const text = examples.join("\n");
    const plain = parse(text);
    for (const other of [`\ufeff${text}`, text.replaceAll("\n", "\r\n"), text.replaceAll("\n", "\r"), text.replace(/^ +/gm, "\t")])
      expect(isSame(plain, parse(other))).toBe(true);
  });

  it("labels in any script", () => {
    for (const label of ["Μονάδα 1, κεραμική", "陶器 🏺", "قارب", "e\u0301cole", "\ud800", "tab\tand\0nul"]) {
      const { tree, problems } = parse(`holder u1 "${label}" code 1`);
      expect(problems).toEqual([]);
      expect(tree.declarations[0]).toMatchObject({ label: { text: label }, facts: [{ kind: "code" }] });
    }
  });

  it("names in another script are kept and told once each", () => {
    const { tree, problems } = parse('holder μονάδα "A" code 1\nholder café "B" code 2');
    expect(tree.declarations).toMatchObject([{ name: { text: "μονάδα" } }, { name: { text: "café" } }]);
    expect(problems).toHaveLength(2);
  });

  it("quotes and backslashes in a text", () => {
    expect(parse('site "a \\"b\\" \\\\"').tree.declarations[0]).toMatchObject({ label: { text: 'a "b" \\' } });
    expect(parse('site "a \\" \\\\').problems.map(problem => problem.message)).toEqual([
      'expected `"` at the end of the text, found the end of the line',
    ]);
  });

  it("a comment between slashes and stars is one problem, and what is in it is not read", () => {
    const { tree, problems } = parse('holder u1 "A"\n/* holder u2 "B"\nholder u3 "C" */\nholder u4 "D"');
    expect(problems).toHaveLength(1);
    expect(tree.declarations).toMatchObject([{ name: { text: "u1" } }, { name: { text: "u4" } }]);
  });

  it("a text that is too long is one problem", () => {
    const { tree, problems } = parse("x".repeat(longestText + 1));
    expect(tree.declarations).toEqual([]);
    expect(problems).toEqual([
      { code: "syntax", start: 0, end: 0, message: "the text is longer than 16 million characters and was not read" },
    ]);
  });
});

describe("time grows with the length, whatever the text is made of", () => {
  const pieces: Record<string, string> = {
    "opening braces": "{",
    "closing braces": "}",
    "nested relays": "relay 1 { ",
    quotes: '"',
    "backslashes in a text": "\\\\",
    "slashes and stars": "/*",
    "stars and slashes": "/* */",
    words: "u1 ",
    digits: "1",
    dots: ".",
    brackets: "[",
    spaces: " ",
    comments: "// c\n",
    keywords: "keypad ",
    "conflict markers": "<<<<<<<\n",
    conflicts: "<<<<<<<\n=======\n>>>>>>>\n",
    "one-line keypads": 'keypad g "x" : m { relay 1 { 01 u1 } } ',
    "equal facts": 'holder u1 "A" until 2027-01-01 ',
    settings: 'keypad g "x" : m { setting "k" 1 setting "k" 2 ',
    fields: 'model m "x" { put code {slot ',
    "carriage returns": "\r",
  };
  for (const [what, piece] of Object.entries(pieces)) {
    it(what, () => {
      const of = (length: number) => (what.startsWith("backslashes") ? '"' : "") + piece.repeat(Math.ceil(length / piece.length));
      // The best of three, in time of the processor: the machine may be busy with something else.
      const timeOf = (text: string) =>
        Math.min(
          ...[1, 2, 3].map(() => {
            const start = process.cpuUsage();
            parse(text);
            const { user, system } = process.cpuUsage(start);
            return (user + system) / 1000;
          }),
        );
      const [small, large] = [Math.max(timeOf(of(40_000)), 2), timeOf(of(400_000))];
      // Ten times the length; a square would be a hundred times.
      expect(large / small).toBeLessThan(45);
    });
  }
});
