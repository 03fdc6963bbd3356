/** `mullion check`: findings in text and JSON, exit statuses, what is looked at. */
import { mkdirSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { clashing, folderOf, model, mullion, site } from "./support/mullion.ts";

const clean = { "tiny.mullion": model, "yard.mullion": site };
const broken = { "tiny.mullion": model, "yard.mullion": clashing };

const clash = `yard.mullion:14:5  error  slot 1 of Foot gate already holds Unit 1  slot-clash
  14 |     1 u2
     |     ^
    yard.mullion:13:5  Unit 1 is there
`;

test("a clean site is one line and status 0", () => {
  expect(mullion(["check"], { cwd: folderOf(clean) })).toEqual({ status: 0, out: "2 files checked: nothing found\n", err: "" });
});

test("an error stands with its line, carets and the place it belongs to; status 1", () => {
  expect(mullion(["check"], { cwd: folderOf(broken) })).toEqual({ status: 1, out: `${clash}\n2 files checked: 1 error\n`, err: "" });
});

test("JSON has the documented shape and stands alone", () => {
  const { status, out, err } = mullion(["check", "--format", "json"], { cwd: folderOf(broken) });
  expect({ status, err }).toEqual({ status: 1, err: "" });
  expect(JSON.parse(out)).toEqual({
    findings: [
      {
        file: "yard.mullion",
        line: 14,
        column: 5,
        endLine: 14,
        endColumn: 6,
        severity: "error",
        code: "slot-clash",
        message: "slot 1 of Foot gate already holds Unit 1",
        related: [{ file: "yard.mullion", line: 13, column: 5, message: "Unit 1 is there" }],
      },
    ],
    files: 2,
    errors: 1,
    warnings: 0,
  });
});

describe("days", () => {
  const lapsing = { ...clean, "yard.mullion": site.replace("code 4829", "code 4829 until 2026-06-30") };

  test("what lapses is judged by --today", () => {
    const cwd = folderOf(lapsing);
    expect(mullion(["check", "--today", "2026-06-01"], { cwd }).out).toBe("2 files checked: nothing found\n");
    const { status, out } = mullion(["check", "--today", "2026-07-01"], { cwd });
    expect(status).toBe(0);
    expect(out).toContain("until-passed");
    expect(out).toMatch(/\n2 files checked: 1 warning\n$/);
  });

  test("--strict makes a warning status 1", () => {
    expect(mullion(["check", "--today", "2026-07-01", "--strict"], { cwd: folderOf(lapsing) }).status).toBe(1);
    expect(mullion(["check", "--today", "2026-06-01", "--strict"], { cwd: folderOf(lapsing) }).status).toBe(0);
  });
});

describe("what is looked at", () => {
  test("a folder: each site once, and on their own the files that no site uses", () => {
    const cwd = folderOf({
      "a/tiny.mullion": model,
      "a/one.mullion": clashing,
      "a/two.mullion": site,
      "alone.mullion": "holder u1 code code\n",
      "notes.txt": "holder holder",
      ".hidden/x.mullion": "holder holder",
      "node_modules/x.mullion": "holder holder",
    });
    const { findings, files } = JSON.parse(mullion(["check", "--format", "json"], { cwd }).out);
    expect(files).toBe(4);
    expect([...new Set(findings.map(({ file }: { file: string }) => file))]).toEqual(["a/one.mullion", "alone.mullion"]);
  });

  test("a model with a fault, used by two sites, is reported once", () => {
    const cwd = folderOf({
      "tiny.mullion": model.replace("{slot} {code} OK ", "{slot} {cod} OK "),
      "one.mullion": site,
      "two.mullion": site,
    });
    const { findings } = JSON.parse(mullion(["check", "--format", "json"], { cwd }).out);
    const inModel = findings.filter(({ file }: { file: string }) => file === "tiny.mullion");
    expect(new Set(inModel.map((finding: object) => JSON.stringify(finding))).size).toBe(inModel.length);
    expect(inModel.map(({ code }: { code: string }) => code)).toContain("model-field");
  });

  test("files of two folders by name, a link to a file among them", () => {
    const cwd = folderOf({ "a/tiny.mullion": model, "a/yard.mullion": site, "b/alone.mullion": 'holder u1 "Unit 1"\n' });
    symlinkSync("../a/tiny.mullion", join(cwd, "b/tiny.mullion"));
    expect(JSON.parse(mullion(["check", "a/yard.mullion", "b", "--format", "json"], { cwd }).out).files).toBe(4);
  });

  test("a fitted record named alone is read with its site", () => {
    const cwd = folderOf({ ...clean, "yard.fitted.mullion": "fitted gate 2026-01-02 {\n  model tiny\n  installer code 6044\n}\n" });
    expect(mullion(["check", "yard.fitted.mullion"], { cwd })).toEqual({ status: 0, out: "3 files checked: nothing found\n", err: "" });
  });

  test("an empty folder is wrong usage", () => {
    const cwd = folderOf();
    mkdirSync(join(cwd, "empty"));
    expect(mullion(["check"], { cwd })).toEqual({ status: 2, out: "", err: "mullion: no *.mullion files in this folder\n" });
    expect(mullion(["check", "empty"], { cwd })).toEqual({ status: 2, out: "", err: "mullion: no *.mullion files in empty\n" });
  });

  test("an empty file, a byte order mark, CR LF and tabs are fine", () => {
    const cwd = folderOf({
      "empty.mullion": "",
      "tiny.mullion": model,
      "yard.mullion": `\ufeff${site.replaceAll("\n", "\r\n").replaceAll("    ", "\t")}`,
    });
    expect(mullion(["check"], { cwd })).toEqual({ status: 0, out: "3 files checked: nothing found\n", err: "" });
  });
});

describe("paths for programs", () => {
  const fileOf = (cwd: string, ...paths: readonly string[]) =>
    JSON.parse(mullion(["check", ...paths, "--format", "json"], { cwd }).out).findings.map(({ file }: { file: string }) => file);

  test("are relative to the repository, found without git", () => {
    const repository = folderOf({ "deep/down/tiny.mullion": model, "deep/down/yard.mullion": clashing });
    mkdirSync(join(repository, ".git"));
    expect(fileOf(join(repository, "deep/down"))).toEqual(["deep/down/yard.mullion"]);
    expect(fileOf(repository)).toEqual(["deep/down/yard.mullion"]);
    expect(fileOf(folderOf(), join(repository, "deep"))).toEqual(["deep/down/yard.mullion"]);
  });

  test("in a linked working tree, whose .git is a file, too", () => {
    const tree = folderOf({ ".git": "gitdir: elsewhere\n", "a/tiny.mullion": model, "a/yard.mullion": clashing });
    expect(fileOf(join(tree, "a"))).toEqual(["a/yard.mullion"]);
  });

  test("outside a repository are relative to the working folder", () => {
    const folder = folderOf({ "a/tiny.mullion": model, "a/yard.mullion": clashing });
    expect(fileOf(folder, "a")).toEqual(["a/yard.mullion"]);
    expect(fileOf(join(folder, "a"))).toEqual(["yard.mullion"]);
  });
});

describe("colour", () => {
  const coloured = (env: Record<string, string>) => mullion(["check"], { cwd: folderOf(broken), env }).out.includes("\u001b[");

  test("not into a pipe, not even in a build service", () => {
    expect(coloured({})).toBe(false);
    expect(coloured({ CI: "true" })).toBe(false);
  });

  test("where it is forced, unless forced to none", () => {
    expect(coloured({ FORCE_COLOR: "1" })).toBe(true);
    expect(coloured({ FORCE_COLOR: "0" })).toBe(false);
    expect(coloured({ NO_COLOR: "1" })).toBe(false);
  });
});

describe("no code comes out", () => {
  const codes = ["4829", "5590", "6044", "2468"];

  test.each([
    ["two slots", clashing],
    ["a code of another length, on the line that is shown", site.replace("code 4829", "code 48291")],
    ["one code for two", site.replace("code 5590", "code 4829")],
    ["a half-typed line", site.replace('"Unit 1" code 4829', '"Unit 1" 4829')],
    ["a code in a comment of the line shown", site.replace("2 u2", "1 u2 // was 5590")],
    ["the factory code in use", site.replace("6044", "2468")],
  ])("in %s", (_what, text) => {
    const cwd = folderOf({ "tiny.mullion": model, "yard.mullion": text });
    const { status, out, err } = mullion(["check"], { cwd });
    expect(status).toBe(1);
    const json = mullion(["check", "--format", "json"], { cwd }).out;
    expect(codes.filter(code => (out + err + json).includes(code))).toEqual([]);
  });
});
