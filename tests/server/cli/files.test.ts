/** Files and folders as they come: pipes, devices, loops, other encodings, no permission. */
import { execFileSync } from "node:child_process";
import { chmodSync, mkdirSync, symlinkSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { folderOf, model, mullion, site } from "./support/mullion.ts";

const posix = process.platform !== "win32";
const superuser = process.getuid?.() === 0;

/** What is said of a file that is there and cannot be read; the other files are checked. */
function said(cwd: string, ...paths: readonly string[]): { status: number | null; err: string } {
  const { status, err } = mullion(["check", ...paths], { cwd });
  return { status, err };
}

describe.runIf(posix)("is said, ends with 2, and never waits", () => {
  test("a pipe", () => {
    const cwd = folderOf({ "ok.mullion": "" });
    execFileSync("mkfifo", [join(cwd, "pipe.mullion")]);
    expect(said(cwd)).toEqual({ status: 2, err: "mullion: cannot read pipe.mullion: it is a pipe, not a file\n" });
    expect(said(cwd, "pipe.mullion")).toEqual({ status: 2, err: "mullion: cannot read pipe.mullion: it is a pipe, not a file\n" });
    expect(mullion(["sheet", "pipe.mullion"], { cwd })).toEqual({
      status: 2,
      out: "",
      err: "mullion: cannot read pipe.mullion: it is a pipe, not a file\n",
    });
  });

  test("a device", () => {
    expect(said(folderOf(), "/dev/zero")).toEqual({ status: 2, err: "mullion: cannot read /dev/zero: it is a device, not a file\n" });
  });

  test("a loop of links, and a link to nothing", () => {
    const cwd = folderOf();
    symlinkSync("b.mullion", join(cwd, "a.mullion"));
    symlinkSync("a.mullion", join(cwd, "b.mullion"));
    symlinkSync("gone", join(cwd, "c.mullion"));
    expect(said(cwd)).toEqual({
      status: 2,
      err: [
        "mullion: cannot read a.mullion: its links lead round in a loop",
        "mullion: cannot read b.mullion: its links lead round in a loop",
        "mullion: cannot read c.mullion: it is a link to nothing",
        "",
      ].join("\n"),
    });
  });

  test("a folder of links to itself is walked once", () => {
    const cwd = folderOf({ "tiny.mullion": model, "yard.mullion": site });
    symlinkSync(".", join(cwd, "again"));
    expect(mullion(["check"], { cwd })).toEqual({ status: 0, out: "2 files checked: nothing found\n", err: "" });
  });

  test("a pipe that a site uses", () => {
    const cwd = folderOf({ "yard.mullion": site });
    execFileSync("mkfifo", [join(cwd, "tiny.mullion")]);
    const { status, out, err } = mullion(["check", "yard.mullion"], { cwd });
    expect({ status, err }).toEqual({ status: 2, err: "mullion: cannot read tiny.mullion: it is a pipe, not a file\n" });
    expect(out).toContain("use-missing");
  });

  test.skipIf(superuser)("no permission", () => {
    const cwd = folderOf({ "yard.mullion": site, "shut/x.mullion": "" });
    chmodSync(join(cwd, "yard.mullion"), 0);
    chmodSync(join(cwd, "shut"), 0);
    expect(said(cwd)).toEqual({
      status: 2,
      err: "mullion: cannot read shut: permission denied\nmullion: cannot read yard.mullion: permission denied\n",
    });
    chmodSync(join(cwd, "shut"), 0o700);
  });
});

test("a folder that is called like a file is looked through", () => {
  const cwd = folderOf({ "x.mullion/tiny.mullion": model });
  expect(mullion(["check"], { cwd })).toEqual({ status: 0, out: "1 file checked: nothing found\n", err: "" });
  expect(mullion(["sheet", "x.mullion"], { cwd }).err).toBe("mullion: x.mullion is a folder; name the file itself\n");
  mkdirSync(join(cwd, "y.mullion"));
  expect(said(cwd, "y.mullion")).toEqual({ status: 2, err: "mullion: no *.mullion files in y.mullion\n" });
});

test("what is not UTF-8 is refused whole, not read wrongly", () => {
  const cwd = folderOf({
    "latin.mullion": Buffer.from('site "Caf\xe9"', "latin1"),
    "wide.mullion": Buffer.from('\ufeffsite "Yard"', "utf16le"),
  });
  expect(said(cwd)).toEqual({
    status: 2,
    err: "mullion: cannot read latin.mullion: it is not UTF-8 text\nmullion: cannot read wide.mullion: it is UTF-16 text; save it as UTF-8\n",
  });
});

test("a file beyond any site's size is refused, not tried", () => {
  const cwd = folderOf({ "huge.mullion": Buffer.alloc(17 * 1024 * 1024, "\n") });
  expect(said(cwd)).toEqual({ status: 2, err: "mullion: cannot read huge.mullion: it has 17 MB, and files up to 16 MB are read\n" });
});

test("a name that would steer a terminal is made visible", () => {
  const cwd = folderOf({ "a\u001b[2Jb.mullion": "holder\n" });
  const { out } = mullion(["check"], { cwd });
  expect(out).toContain("a‹U+001B›[2Jb.mullion:1:");
  expect(out.includes("\u001b")).toBe(false);
});
