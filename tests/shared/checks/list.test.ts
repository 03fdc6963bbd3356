/** The folder, the list and the tests of the checks agree, and what each check says of itself is complete. */
import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import type { Check } from "../../../shared/checks/check.ts";
import { checksTable, explain } from "../../../shared/checks/explain.ts";
import { checks } from "../../../shared/checks/index.ts";

const all: readonly Check[] = checks;
const codes = all.map(check => check.code);

/** What stands in the folder of the checks and is none: what several of them need, the run, the list, the words. */
const others = [
  "across",
  "check",
  "days",
  "edits",
  "entries-needed",
  "explain",
  "free-slot",
  "in-model",
  "index",
  "nearest",
  "record",
  "run",
  "touched",
  "verdict",
  "wanted",
  "words",
];

function namesIn(folder: string, ending: string): readonly string[] {
  const path = fileURLToPath(new URL(folder, import.meta.url));
  return readdirSync(path)
    .filter(name => name.endsWith(ending))
    .map(name => name.slice(0, -ending.length));
}

test("every file of the folder is a check of the list or a part that they share", () => {
  expect([...namesIn("../../../shared/checks/", ".ts")].sort()).toEqual([...codes, ...others].sort());
});

test("every check has a test file of its name", () => {
  const tested = namesIn("./", ".test.ts");
  expect(codes.filter(code => !tested.includes(code))).toEqual([]);
});

test("no code is said twice", () => {
  expect(new Set(codes).size).toBe(codes.length);
});

test.each(all.map((check): [string, Check] => [check.code, check]))("%s is explained in full", (code, check) => {
  const words = explain(code);
  expect(words.startsWith(`# ${code}\n`)).toBe(true);
  expect(words).toContain(check.explain.what);
  expect(words).toContain(check.explain.why);
  expect(words.match(/```mullion\n/g)).toHaveLength(2);
  expect(check.explain.triggers).toContain(`^ ${code}\n`);
});

test("a name that no finding has is explained by nothing", () => {
  expect(explain("slot-crash")).toBe("");
});

test("the table has one row for each check", () => {
  const rows = checksTable().trimEnd().split("\n");
  expect(rows).toHaveLength(codes.length + 2);
  expect(rows.slice(2).map(row => /^\| `([a-z-]+)` \|/.exec(row)?.[1])).toEqual(codes);
  for (const row of rows) expect(row.replaceAll("\\|", "").match(/\|/g)).toHaveLength(4);
});
