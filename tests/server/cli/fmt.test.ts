/** `mullion fmt`: writes the canonical layout, whole or not at all. */
import { chmodSync, lstatSync, readdirSync, readFileSync, statSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { folderOf, model, mullion, site } from "./support/mullion.ts";

const untidy = site.replace("    1 u1\n", "  1    u1\n");

test("what is in the canonical layout is not touched and not named", () => {
  const cwd = folderOf({ "tiny.mullion": model, "yard.mullion": site });
  const before = statSync(join(cwd, "yard.mullion")).mtimeMs;
  expect(mullion(["fmt"], { cwd })).toEqual({ status: 0, out: "", err: "" });
  expect(statSync(join(cwd, "yard.mullion")).mtimeMs).toBe(before);
});

test("the rest is written and named", () => {
  const cwd = folderOf({ "tiny.mullion": model, "yard.mullion": untidy });
  expect(mullion(["fmt"], { cwd })).toEqual({ status: 0, out: "yard.mullion: formatted\n", err: "" });
  expect(readFileSync(join(cwd, "yard.mullion"), "utf8")).toBe(site);
  expect(readdirSync(cwd).sort()).toEqual(["tiny.mullion", "yard.mullion"]);
});

test("--check writes nothing and ends with 1", () => {
  const cwd = folderOf({ "yard.mullion": untidy });
  expect(mullion(["fmt", "--check", "yard.mullion"], { cwd })).toEqual({
    status: 1,
    out: "yard.mullion: is not in the canonical layout\n",
    err: "",
  });
  expect(readFileSync(join(cwd, "yard.mullion"), "utf8")).toBe(untidy);
});

test("line ends and a byte order mark stay", () => {
  const windows = (text: string) => `\ufeff${text.replaceAll("\n", "\r\n")}`;
  const cwd = folderOf({ "yard.mullion": windows(untidy) });
  expect(mullion(["fmt"], { cwd }).status).toBe(0);
  expect(readFileSync(join(cwd, "yard.mullion"), "utf8")).toBe(windows(site));
});

test("a file with a syntax error is left as it is, the others are written; status 1", () => {
  const cwd = folderOf({ "bad.mullion": "holder   {\n", "yard.mullion": untidy });
  const { status, out } = mullion(["fmt"], { cwd });
  expect(status).toBe(1);
  expect(out).toBe("bad.mullion: left as it is, since it has syntax errors (mullion check bad.mullion)\nyard.mullion: formatted\n");
  expect(readFileSync(join(cwd, "bad.mullion"), "utf8")).toBe("holder   {\n");
});

test("rights stay, and a link is written through", () => {
  const cwd = folderOf({ "real/yard.mullion": untidy });
  chmodSync(join(cwd, "real/yard.mullion"), 0o640);
  symlinkSync("real/yard.mullion", join(cwd, "link.mullion"));
  expect(mullion(["fmt", "link.mullion"], { cwd }).status).toBe(0);
  expect(lstatSync(join(cwd, "link.mullion")).isSymbolicLink()).toBe(true);
  expect(readFileSync(join(cwd, "real/yard.mullion"), "utf8")).toBe(site);
  expect(statSync(join(cwd, "real/yard.mullion")).mode & 0o777).toBe(0o640);
});

test("a read-only file is refused and stays as it was", () => {
  const cwd = folderOf({ "yard.mullion": untidy });
  chmodSync(join(cwd, "yard.mullion"), 0o444);
  expect(mullion(["fmt"], { cwd })).toEqual({ status: 2, out: "", err: "mullion: cannot write yard.mullion: it is read-only\n" });
  expect(readFileSync(join(cwd, "yard.mullion"), "utf8")).toBe(untidy);
});
