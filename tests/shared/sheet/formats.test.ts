/** The formats set out what a sheet says, and no label can pass for anything but text. */
import { describe, expect, test } from "vitest";
import { columnsOf } from "../../../shared/sheet/columns.ts";
import { csv } from "../../../shared/sheet/formats/csv.ts";
import { formats } from "../../../shared/sheet/formats/index.ts";
import { json } from "../../../shared/sheet/formats/json.ts";
import { md } from "../../../shared/sheet/formats/md.ts";
import { txt } from "../../../shared/sheet/formats/txt.ts";
import type { Sheet } from "../../../shared/sheet/shape.ts";
import { visible } from "../../../shared/sheet/visible.ts";
import { labelledWith, sheet } from "./made-sheet.ts";
import { cellsOf, csvRows, fromCsv, fromMarkdown, fromText } from "./read-back.ts";

const printed = [[["OK", "[installer code]", "OK"], ["7", "4", "02", "00421", "OK"], ["OK"]]];

test("there is one file for each format, named after it", () => {
  expect(formats.map(format => format.name)).toEqual([...new Set(formats.map(format => format.name))]);
});

test("the keys stand in every format, group by group", () => {
  expect(fromMarkdown(md.render([sheet]))).toEqual(printed);
  expect(fromText(txt.render([sheet]))).toEqual(printed);
  expect(fromCsv(csv.render([sheet]))).toEqual(printed);
});

test("two sheets stand in one file", () => {
  expect(fromMarkdown(md.render([sheet, sheet]))).toEqual([...printed, ...printed]);
  expect(fromText(txt.render([sheet, sheet]))).toEqual([...printed, ...printed]);
  expect(JSON.parse(json.render([sheet, sheet])).keypads).toHaveLength(2);
});

describe("a spreadsheet", () => {
  test("keeps the zeros of slots and codes, since their cells begin with a word", () => {
    const row = csvRows(csv.render([sheet])).find(({ part }) => part === "entry");
    expect(row).toMatchObject({ slot: "slot 02", keys: "key 7 4 02 00421 OK", number: "1" });
    expect(csvRows(csv.render([sheet])).find(({ part }) => part === "try")?.keys).toBe("key 00421");
  });

  const formulas = ["=1+1", "+1", "-1", "@SUM(A1)", "＝1+1", " =1", "a;=1", "0042", "1,5", "1E5", "12:30"];
  test.each(formulas)("takes %j for text", words => {
    for (const row of csvRows(csv.render([labelledWith(words)])))
      for (const [column, cell] of Object.entries(row)) {
        expect(cell, column).not.toMatch(/^\s*[=+\-@＝＋－＠]|;\s*[=+\-@＝＋－＠]/);
        if (column !== "number" && column !== "session") expect(cell, column).not.toMatch(/^[\d.,:/%\s-]+(E\d+)?$/i);
      }
  });

  test("a label with quotes and commas is one cell", () => {
    const rows = csvRows(csv.render([labelledWith('"a", "b"\\')]));
    expect(rows.find(({ part }) => part === "entry")?.door).toBe('"a", "b"\\');
  });
});

describe("plain text", () => {
  test.each([
    ["a label of 10,000 letters", "x".repeat(10_000)],
    ["wide letters", "門".repeat(200)],
    ["many words", "word ".repeat(400).trim()],
  ])("%s stays within eighty columns and is not cut", (_, words) => {
    const text = txt.render([labelledWith(words)]);
    for (const line of text.split("\n")) expect(columnsOf(line)).toBeLessThanOrEqual(80);
    expect(text.replace(/\s+/g, "")).toContain(words.replace(/\s+/g, ""));
  });
});

describe("Markdown", () => {
  const hostile = [
    "<script>alert(1)</script>",
    "a | b",
    "`code` ``",
    "# heading",
    "[link](https://example.invalid)",
    "![x](y)",
    "*bold* _under_ ~~gone~~",
    "&lt;b&gt;",
    "$x$ @someone #12 :smile: www.example.invalid https://example.invalid",
    "\\| \\",
  ];
  test.each(hostile)("a label %j stays text", words => {
    const rendered = md.render([labelledWith(words)]);
    const plain = md.render([labelledWith("plain")]);
    expect(rendered.split("\n")).toHaveLength(plain.split("\n").length);
    for (const line of rendered.split("\n"))
      if (line.startsWith("| ☐ | 1 |")) {
        expect(cellsOf(line)).toHaveLength(6);
        expect(unescaped(cellsOf(line)[4] ?? "")).toBe(words);
      }
    const outside = rendered.replace(/\\[\\`*_{}[\]<>&|~#!$@^=:.]/g, "").replace(/^(# |## |- \[ \] |\*\*|> )/gm, "");
    expect(outside).not.toMatch(/[<>&$@~!]|\]\(|:\/\/|www\./);
  });
});

describe("labels in every format", () => {
  const names: readonly (readonly [string, string])[] = [
    ["a right-to-left override", "\u202eevil\u202c"],
    ["a line break", "one\r\ntwo\u2028three"],
    ["a terminal's escape sequence", "\u001b[2Jgone"],
    ["half a letter", "\ud800x"],
    ["a NUL", "\u0000"],
  ];
  test.each(names)("%s is made visible", (_, words) => {
    for (const format of formats) {
      const rendered = format.render([labelledWith(visible(words))]);
      expect(rendered, format.name).not.toMatch(
        /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\ud800](?![\udc00-\udfff])/,
      );
      expect(rendered, format.name).toContain("U+");
    }
  });

  test("emoji, accents and letters of other writing stay as they are", () => {
    for (const words of ["🚪 Tür", "Θύρα", "दरवाज़ा", "👩‍🔧"]) {
      expect(visible(words)).toBe(words);
      for (const format of formats) expect(format.render([labelledWith(words)]), format.name).toContain(words);
    }
  });
});

test("nothing to type is said", () => {
  const nothing: Sheet = { ...sheet, sessions: [], tries: [], paperTries: [], before: [] };
  for (const format of [md, txt, csv]) expect(format.render([nothing]), format.name).toContain("Nothing to type");
  expect(JSON.parse(json.render([nothing])).keypads[0].sessions).toEqual([]);
});

function unescaped(markdown: string): string {
  return markdown.replace(/\\([\\`*_{}[\]<>&|~#!$@^=:.])/g, "$1");
}
