/** `who`, `issue` and `leave`, as a person runs them. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { folderOf, model, mullion } from "./support/mullion.ts";
import { git } from "./support/repository.ts";

const site = `use "model.mullion"
site "Alder yard"
holder u1 "Unit 1" code 4829 // ground floor
holder u2 "Unit 2"
  code 5591
  tag 8061261 "blue fob"
holder u3 "Unit 3" until 2026-09-30 code 7305
keypad gate "Lane gate" : tiny {
  installer code 6044
  relay 1 "Foot gate" {
    1 u1
    2 u2
    3 u3   // first floor
  }
}
`;
const files = { "yard.mullion": site, "model.mullion": model };
const codes = ["4829", "5591", "7305", "6044"];

describe("who", () => {
  test.each(["text", "csv", "json", "html", "md"])("%s: what lapsed still opens; no code", format => {
    const { out, status } = mullion(["who", "yard.mullion", "--format", format, "--today", "2026-11-25"], { cwd: folderOf(files) });
    expect(status).toBe(0);
    expect(out).toContain("Foot gate");
    expect(out).toContain(format === "json" ? '"lapsed": true' : "opens, though lapsed");
    expect(codes.filter(code => out.includes(code))).toEqual([]);
  });

  test("hostile labels stay text in every format", () => {
    const hostile = "<script>alert(1)</script> | `=1+1` \u202e\u001b[31m";
    const cwd = folderOf({ ...files, "yard.mullion": site.replace('"Unit 1"', `"=${hostile}"`) });
    const said = (format: string) => mullion(["who", "yard.mullion", "--format", format], { cwd }).out;
    expect(said("html")).not.toContain("<script>");
    expect(said("csv")).toContain(`"'=<script>`);
    expect(
      said("md")
        .split("\n")
        .filter(line => line.startsWith("|"))
        .map(line => line.replaceAll("\\|", "").split("|").length),
    ).toEqual([9, 9, 9, 9, 9]);
    for (const format of ["text", "csv", "html", "md"]) expect(/[\u001b\u202e]/.test(said(format)), format).toBe(false);
    expect(JSON.parse(said("json")).openings[0].label).toContain("<script>");
  });

  test("one door, one holder; what is not there is said with what is meant", () => {
    const cwd = folderOf(files);
    expect(mullion(["who", "yard.mullion", "--holder", "u2"], { cwd }).out).not.toContain("Unit 1");
    const { err, status } = mullion(["who", "yard.mullion", "--door", "Foot gat"], { cwd });
    expect([status, err.includes("Foot gate")]).toEqual([2, true]);
    expect(mullion(["who", "yard.mullion", "--holder", "u9"], { cwd }).status).toBe(2);
  });

  test("at an earlier revision, records included", () => {
    const cwd = folderOf(files);
    git(cwd, "init", "-q");
    git(cwd, "add", ".");
    git(cwd, "commit", "-qm", "first");
    writeFileSync(join(cwd, "yard.mullion"), site.replace("    1 u1\n", ""));
    expect(mullion(["who", "yard.mullion"], { cwd }).out).not.toContain("Unit 1");
    expect(mullion(["who", "yard.mullion", "--at", "HEAD"], { cwd }).out).toContain("Unit 1");
    expect(mullion(["who", "yard.mullion", "--at", "nowhere"], { cwd })).toMatchObject({
      status: 2,
      err: "mullion: git knows no revision nowhere\n",
    });
    expect(mullion(["who", "yard.mullion", "--at", "--output=x"], { cwd }).status).toBe(2);
  });

  test("outside a repository, and without git, earlier revisions cannot be had, and that is said", () => {
    const cwd = folderOf(files);
    const outside = mullion(["who", "yard.mullion", "--at", "HEAD"], { cwd, env: { GIT_CEILING_DIRECTORIES: join(cwd, "..") } });
    expect([outside.status, outside.err.includes("no git repository")]).toEqual([2, true]);
    const without = mullion(["who", "yard.mullion", "--at", "HEAD"], { cwd, env: { PATH: cwd } });
    expect([without.status, without.err.includes("git is not to be found")]).toEqual([2, true]);
  });
});

describe("issue", () => {
  test.each([
    ["line feeds", site],
    ["Windows line ends", site.replaceAll("\n", "\r\n")],
    ["a byte order mark", `\ufeff${site}`],
  ])("only the digits change: %s", (_, text) => {
    const cwd = folderOf({ ...files, "yard.mullion": text });
    const { out, status } = mullion(["issue", "yard.mullion", "--holder", "u2", "--write"], { cwd });
    expect(status).toBe(0);
    expect(out).toMatch(/^\d{4}\n$/);
    expect(readFileSync(join(cwd, "yard.mullion"), "utf8")).toBe(text.replace("5591", out.trim()));
  });

  test("without --write nothing is written; an unknown holder is said", () => {
    const cwd = folderOf(files);
    expect(mullion(["issue", "yard.mullion", "--holder", "u1"], { cwd }).out).toMatch(/^\d{4}\n$/);
    expect(readFileSync(join(cwd, "yard.mullion"), "utf8")).toBe(site);
    expect(mullion(["issue", "yard.mullion", "--holder", "u7"], { cwd }).err).toMatch(/the site has no holder u7/);
    expect(mullion(["issue", "yard.mullion"], { cwd }).status).toBe(2);
  });
});

describe("leave", () => {
  test("the entry goes, everything else stays; what must be typed is said, and no code", () => {
    const cwd = folderOf({
      ...files,
      "yard.fitted.mullion":
        "fitted gate 2026-11-20 {\n  model tiny\n  installer code 6044\n  relay 1 {\n    1 code 4829\n    2 code 5591\n    3 code 7305\n  }\n}\n",
    });
    const dry = mullion(["leave", "yard.mullion", "--holder", "u3", "--dry-run"], { cwd });
    expect(dry.out).toContain("Lane gate: 1 entry to type");
    expect(readFileSync(join(cwd, "yard.mullion"), "utf8")).toBe(site);
    const { out, status } = mullion(["leave", "yard.mullion", "--holder", "u3"], { cwd });
    expect(status).toBe(0);
    expect(readFileSync(join(cwd, "yard.mullion"), "utf8")).toBe(site.replace("    3 u3   // first floor\n", ""));
    expect(codes.filter(code => out.includes(code))).toEqual([]);
  });
});

test("whoever leaves was the last at a door: it is said that this holds the sheet back", () => {
  const cwd = folderOf({ ...files, "yard.mullion": site.replace("    2 u2\n    3 u3   // first floor\n", "") });
  const { out } = mullion(["leave", "yard.mullion", "--holder", "u1"], { cwd });
  expect(out).toContain("  no sheet before this is settled: nothing fires Foot gate (mullion explain relay-unreachable)\n");
});

test("two sites with one installer code: said once, without the code", () => {
  const cwd = folderOf({ "a.mullion": site, "b.mullion": site.replace("Alder", "Bell"), "model.mullion": model });
  const { out } = mullion(["check"], { cwd });
  expect(out.match(/installer-reused/g)).toHaveLength(1);
  expect(out).toContain("Lane gate (Bell yard)");
  expect(codes.filter(code => out.includes(code))).toEqual([]);
});
