/** A parser that is given what another one has worked out reads every text as that one does. */
import { globSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { MullionParser } from "../../grammar/parser.ts";
import type { Prepared } from "../../grammar/prepared.ts";
import { prepare, takePrepared } from "../../grammar/prepared.ts";
import { tokenize } from "../../grammar/tokenize.ts";

const root = join(import.meta.dirname, "../..");
const own = new MullionParser();
// As it stands in the program: plain values.
const prepared: Prepared = JSON.parse(JSON.stringify(prepare(own)));
const given = new MullionParser(false, prepared);

test("nothing is worked out again", () => {
  expect(given.getGAstProductions()).toEqual({});
  expect(prepare(given)).toEqual(prepared);
});

test.each(globSync("samples/**/*.mullion", { cwd: root }))("%s, whole and with each of its lines gone", file => {
  const lines = readFileSync(join(root, file), "utf8").split("\n");
  for (let gone = -1; gone < lines.length; gone++) {
    const text = lines.filter((_, index) => index !== gone).join("\n");
    expect(given.read(text, tokenize(text).tokens)).toEqual(own.read(text, tokenize(text).tokens));
  }
});

test("keys", () => {
  const text = "7 4 01 {code} OK [present tag] {";
  expect(given.readKeys(text, tokenize(text).tokens)).toEqual(own.readKeys(text, tokenize(text).tokens));
});

test("what was prepared for other tokens is not taken", () => {
  expect(takePrepared(given, undefined)).toBe(false);
  expect(takePrepared(given, { ...prepared, tokens: [3, "Any"] })).toBe(false);
});
