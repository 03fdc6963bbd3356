/** Texts beyond all measure: read in a time that goes with their length, or not at all and said so in one finding. */
import { describe, expect, test } from "vitest";
import { format } from "../../../grammar/format.ts";
import { longestText, parse } from "../../../grammar/parse.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import { mostFindings } from "../../../shared/checks/too-many.ts";
import { coloredWords } from "../../../shared/editor/coloring.ts";
import type { Finding } from "../../../shared/finding.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { around } from "./corpus.ts";
import { today } from "./holds.ts";

function findingsIn(text: string): readonly Finding[] {
  const file = "/fuzz/huge.mullion";
  return findingsOf(loadSite(file, around({ file, text, ...parse(text) })), { today });
}

const model = 'use "../models/dunlin-3.mullion"\n';
const keypad = (entries: string) =>
  `${model}holder u1 "A" code 48291\nkeypad g "G" : dunlin-3 { relay 1 "A" { ${entries} } relay 2 spare relay 3 spare }`;

test("a text of fifty million characters is not read, and one finding says so", () => {
  const text = 'holder u1 "Unit 1" code 48291\n'.repeat(1_700_000);
  const found = findingsIn(text);
  expect(found.map(({ code, start, end }) => ({ code, start, end }))).toEqual([{ code: "syntax", start: 0, end: 0 }]);
  expect(found[0]?.message).toBe(`the text is longer than ${longestText / 2 ** 20} million characters and was not read`);
  expect(format(text)).toBeUndefined();
  expect(coloredWords(text, parse(text).tree)).toEqual([]);
});

describe("a line of millions of characters", () => {
  const ten = 10_000_000;
  test.each([
    ["words", `u1 ${"u1 ".repeat(ten / 10)}`, 1],
    ["a label", `holder u1 "${"x".repeat(ten)}"`, 0],
    ["a number of a tag", `holder u1 "A" tag ${"0".repeat(ten / 2)},${"0".repeat(ten / 2)}`, 0],
    ["blanks behind a word of a comment", `// allow x: y${" ".repeat(ten)}z`, 1],
    ["opening braces", "{".repeat(ten / 10), 1],
  ])("of %s", (_what, text, findings) => {
    expect(findingsIn(text)).toHaveLength(findings);
  });
});

test("more entries in a relay than a call takes arguments", () => {
  const found = findingsIn(keypad("01 u1 ".repeat(200_000)));
  expect(found).toHaveLength(mostFindings + 1);
  expect(found.at(-1)).toMatchObject({ code: "too-many", severity: "error", keypads: ["g"] });
});

test("a million findings are counted, and the first of them listed in the order of the text", () => {
  const found = findingsIn("?\n".repeat(1_000_000));
  expect(found.slice(0, -1).map(({ start }) => start)).toEqual(Array.from({ length: mostFindings }, (_, index) => index * 2));
  expect(found.at(-1)?.message).toBe("from here on 990000 more findings are not listed, 990000 of them errors");
});

test("blocks in blocks, two hundred thousand deep", () => {
  const codes = findingsIn(`keypad g "G" : m { ${"relay 1 { ".repeat(200_000)}`).map(({ code }) => code);
  expect(codes.sort()).toEqual(["name-unknown", "name-unknown", "syntax"]);
});

test("keys of a model and files that are used, more than a call takes arguments", () => {
  const text = `model m "M" { put code ${"1".repeat(300_000)} {code} }\n${'use "x.mullion"\n'.repeat(150_000)}`;
  expect(findingsIn(text)).toHaveLength(mostFindings + 1);
});
