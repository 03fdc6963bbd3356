/** The papers on the command line: where they are written, who is left out, and what is refused. */
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { readPdf } from "../../support/pdf-reader.ts";
import { clashing, folderOf, model, mullion, root, site } from "../cli/support/mullion.ts";

const files = { "tiny.mullion": model, "yard.mullion": site };
const codes = /4829|5590|6044/;

test("one file a holder beside the site, for its owner's eyes, each with one code", () => {
  const cwd = folderOf(files);
  const { status, out, err } = mullion(["slips", "yard.mullion"], { cwd });
  expect({ status, out, err }).toEqual({
    status: 0,
    out: "Slip, Unit 1  yard-slip-u1.html\nSlip, Unit 2  yard-slip-u2.html\n",
    err: "",
  });
  const slips = readdirSync(cwd).filter(name => name.includes("slip"));
  expect(slips).toEqual(["yard-slip-u1.html", "yard-slip-u2.html"]);
  expect(slips.map(name => readFileSync(join(cwd, name), "utf8").match(new RegExp(codes, "g")))).toEqual([["4829"], ["5590"]]);
  expect(slips.map(name => statSync(join(cwd, name)).mode & 0o777)).toEqual([0o600, 0o600]);
});

test("several slips never go into one file or onto one screen", () => {
  const cwd = folderOf(files);
  for (const output of ["-", "all.html"]) {
    const { status, out, err } = mullion(["slips", "yard.mullion", "-o", output], { cwd });
    expect({ status, out }).toEqual({ status: 2, out: "" });
    expect(err).toBe("mullion: 2 papers, and each is for somebody else: name a folder with -o, or the one that is wanted\n");
  }
  expect(readdirSync(cwd).sort()).toEqual(["tiny.mullion", "yard.mullion"]);
});

test("an envelope is made only of a keypad that is named", () => {
  const cwd = folderOf(files);
  expect(mullion(["envelope", "yard.mullion"], { cwd })).toEqual({
    status: 2,
    out: "",
    err: "mullion: name the keypad whose installer code is wanted: --keypad ID\n",
  });
  const { status, out } = mullion(["envelope", "yard.mullion", "--keypad", "gate", "--format", "txt", "-o", "-"], { cwd });
  expect(status).toBe(0);
  expect(out).toContain("6 0 4 4");
  expect(out.replaceAll(" ", "")).not.toMatch(/4829|5590/);
});

test.each(["register", "visit", "handover"])("%s: one file for the site, without a code", name => {
  const cwd = folderOf(files);
  expect(mullion([name, "yard.mullion", "--format", "md"], { cwd })).toMatchObject({ status: 0, err: "" });
  expect(readFileSync(join(cwd, `yard-${name}.md`), "utf8")).not.toMatch(codes);
});

test("a note of what was done since an earlier record", () => {
  const record = (slots: string) => `fitted gate 2026-11-20 {\n  model tiny\n  installer code 6044\n  relay 1 {\n${slots}  }\n}\n`;
  const cwd = folderOf({
    ...files,
    "yard.fitted.mullion": record("    1 code 4829\n    2 code 5590\n"),
    "old.fitted.mullion": record("    1 code 4829\n"),
  });
  const { status, out } = mullion(["visit", "yard.mullion", "--from", "old.fitted.mullion", "--format", "txt", "-o", "-"], { cwd });
  expect(status).toBe(0);
  expect(out).toContain("- Unit 2's code went into slot 2 of Foot gate.");
  expect(out).not.toMatch(codes);
});

test("a keypad with an error is left out, and that is said; status 1", () => {
  const cwd = folderOf({ ...files, "yard.mullion": clashing });
  expect(mullion(["slips", "yard.mullion"], { cwd })).toEqual({
    status: 1,
    out: 'gate "Lane gate": left out, an error holds it back; mullion check says which\n',
    err: "",
  });
});

test("an unknown holder is named, and a file of the site is never written over", () => {
  const cwd = folderOf(files);
  expect(mullion(["slips", "yard.mullion", "--holder", "u7"], { cwd })).toMatchObject({ status: 2, out: "" });
  expect(mullion(["register", "yard.mullion", "-o", "tiny.mullion"], { cwd }).err).toBe(
    "mullion: tiny.mullion is a file of the site; a paper is not written over it\n",
  );
});

describe("as PDF", () => {
  test("a sheet and a paper, from the built command line", async () => {
    const cwd = folderOf(files);
    expect(mullion(["sheet", "yard.mullion", "--format", "pdf"], { cwd })).toMatchObject({ status: 0, err: "" });
    expect(mullion(["slips", "yard.mullion", "--holder", "u1", "--format", "pdf", "-o", "one.pdf"], { cwd }).status).toBe(0);
    const sheet = await readPdf(readFileSync(join(cwd, "yard-gate-sheet.pdf")));
    expect(sheet.pages.map(({ text }) => text).join(" ")).toContain("7 1 1 4829 OK");
    const slip = await readPdf(readFileSync(join(cwd, "one.pdf")));
    expect(slip.pages[0]?.text).toContain("4829");
    expect(slip.title).toBe("Slip, Reed Yard");
  });

  test("what the font lacks is said, and HTML is written in its place; status 1", () => {
    const cwd = folderOf({ ...files, "yard.mullion": site.replace('"Unit 1"', '"門 1"') });
    const { status, out } = mullion(["sheet", "yard.mullion", "--format", "pdf", "-o", "mine.pdf"], { cwd });
    expect(status).toBe(1);
    expect(out).toContain("written to mine.html\n");
    expect(out).toContain("not as PDF: its font has no 門 (U+9580); written as HTML, which prints from any browser\n");
    expect(readFileSync(join(cwd, "mine.html"), "utf8")).toMatch(/^<!doctype html>/);
    expect(existsSync(join(cwd, "mine.pdf"))).toBe(false);
  });

  test("its part is loaded only then, and no package of the extension carries it", () => {
    expect(readFileSync(join(root, ".vscodeignore"), "utf8")).not.toContain("pdf");
    for (const bundle of ["out/cli.js", "out/cli-more.js", "out/server.js"])
      expect(readFileSync(join(root, bundle), "utf8")).not.toContain("fontkit");
    expect(readFileSync(join(root, ".npmignore"), "utf8")).toContain("!out/pdf.mjs");
  });
});
