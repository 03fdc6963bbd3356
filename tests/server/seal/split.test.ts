/** Moving in: a plain site's codes into sealed files, shown line by line, with what stays readable said. */
import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { model, site } from "../cli/support/mullion.ts";
import { codes, recipient, yardOf } from "./sealed-yard.ts";

const record = `fitted gate 2026-11-20 {
  model tiny
  installer code 6044
  relay 1 {
    1 code 4829            // u1
  }
}
`;
const files = { "tiny.mullion": model, "yard.mullion": site, "yard.fitted.mullion": record, "people.recipients": `${recipient}\n` };

test("shows every line that goes and comes, without a code, and writes nothing when told", () => {
  const { cwd, run, read } = yardOf(files);
  const before = readdirSync(cwd);
  expect(run(["split", "yard.mullion", "--dry-run"])).toEqual({
    status: 0,
    out: [
      "yard.mullion:",
      "  line 2",
      '  + use "people.mullion.age"',
      "  line 5",
      '  - holder own "Our own codes" code gate ••••',
      '  - holder u1 "Unit 1" code ••••',
      '  - holder u2 "Unit 2" code ••••',
      "  -",
      "yard.fitted.mullion: sealed as it is, and removed",
      "yard.fitted.mullion.age, sealed",
      "people.mullion.age, sealed, holds by name:",
      "  holder own: code gate",
      "  holder u1: code",
      "  holder u2: code",
      "nothing was written",
      "",
    ].join("\n"),
    err: "",
  });
  expect(readdirSync(cwd)).toEqual(before);
  expect(read("yard.mullion")).toBe(site);
});

test("writes what it showed; the site means what it meant, and no code is left in a plain file", () => {
  const { cwd, run, open, read } = yardOf(files);
  const before = open(["waiting", "yard.mullion", "--format", "json"]);
  const { status, out } = run(["split", "yard.mullion"]);
  expect(status).toBe(0);
  expect(out).toContain("yard.fitted.mullion.age, people.mullion.age: sealed for one recipient\n");
  expect(out).toContain("copies of the old files still have these codes");
  expect(existsSync(join(cwd, "yard.fitted.mullion"))).toBe(false);
  for (const name of readdirSync(cwd)) if (!/tiny/.test(name)) expect(readFileSync(join(cwd, name), "latin1"), name).not.toMatch(codes);
  expect(open(["check", "yard.mullion"]).out).toBe("4 files checked: nothing found\n");
  expect(open(["waiting", "yard.mullion", "--format", "json"])).toEqual(before);
  expect(open(["unseal", "yard.fitted.mullion.age"]).out).toBe(record);
  expect(read("yard.mullion")).toContain('use "people.mullion.age"\n');
});

test("a keypad of which nothing is known stays one, also where the site's file says so beside a record", () => {
  const other = site.replace("keypad gate", "keypad back").replace("holder own", "holder own2").replace("holder u1", "holder u3");
  expect(other).toContain("keypad back");
  const second = `${other.slice(other.indexOf("keypad back"))}\nfitted back unknown\n`;
  const { open, run } = yardOf({ ...files, "yard.mullion": `${site}\n${second}` });
  const before = open(["waiting", "yard.mullion"]).out;
  expect(before).toMatch(/back .* unknown /);
  expect(run(["split", "yard.mullion"]).status).toBe(0);
  expect(open(["waiting", "yard.mullion"]).out).toBe(before);
});

test("a line of a text with carriage returns is shown without them", () => {
  const { run } = yardOf({ ...files, "yard.mullion": site.replace("own.gate", "7701").replace(/\n/g, "\r\n") });
  const { status, out } = run(["split", "yard.mullion", "--dry-run"]);
  expect(status).toBe(0);
  expect(out).toContain("  -   installer code ••••\n  +   installer code firm-codes.gate\n");
});

test("tells that git's history has the codes, and what to do about it", () => {
  const { cwd, run } = yardOf(files);
  execFileSync("git", ["init", "-q", cwd]);
  const { out } = run(["split", "yard.mullion"]);
  expect(out).toContain("Git's history still has these codes in plain text, here and in every clone");
  expect(out).toContain("issue new ones (mullion issue), type them");
  expect(out).toContain("write the history anew");
});

test("names the lines where a code still stands, in a comment say", () => {
  const { cwd, run } = yardOf(files);
  writeFileSync(join(cwd, "yard.mullion"), site.replace("  relay 1", "  // it was 4829 until May\n  relay 1"));
  const { out } = run(["split", "yard.mullion", "--dry-run"]);
  expect(out).toMatch(/Look at these lines: digits of a code still stand there: yard\.mullion:\d+\n/);
  expect(out).not.toMatch(codes);
});

describe("is refused, and nothing is written", () => {
  test.each([
    ["without anybody to seal for", { "people.recipients": "" }, [], "people.recipients names no recipient"],
    [
      "where the sealed file is there already",
      { "people.mullion.age": "age-encryption.org/v1\n" },
      [],
      "people.mullion.age is there already",
    ],
    ["to a name that is no sealed file's", {}, ["--to", "people.mullion"], "people.mullion is no name for a sealed file"],
    ["of a text that cannot be read", { "yard.mullion": `${site}\nholder` }, [], "its text cannot be read everywhere"],
  ])("%s", (_what, other, more, said) => {
    const { cwd, run, read } = yardOf({ ...files, ...other });
    const before = readdirSync(cwd);
    const { status, out, err } = run(["split", "yard.mullion", ...more]);
    expect({ status, out }).toEqual({ status: 2, out: "" });
    expect(err).toContain(said);
    expect(readdirSync(cwd)).toEqual(before);
    expect(read("yard.fitted.mullion")).toBe(record);
  });
});
