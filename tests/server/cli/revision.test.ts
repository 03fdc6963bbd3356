/** A site as it was at a git revision: what was not there is told from what git cannot give. */
import { execFileSync } from "node:child_process";
import { chmodSync, mkdirSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { model, mullion, site } from "./support/mullion.ts";
import { git, repositoryOf } from "./support/repository.ts";

const at = (cwd: string, revision: string, path = "yard.mullion") => {
  const { status, out, err } = mullion(["who", path, "--at", revision, "--format", "csv", "--today", "2026-11-25"], { cwd });
  return { status, err, holders: [...out.matchAll(/Unit \d/g)].map(([unit]) => unit) };
};

test("what is used is read as it was then, be it gone from disk, moved, or behind a link", () => {
  const cwd = repositoryOf({ "sites/yard.mullion": site.replace("tiny.mullion", "model.mullion"), "tiny.mullion": model });
  symlinkSync("../tiny.mullion", join(cwd, "sites/model.mullion"));
  git(cwd, "add", ".");
  git(cwd, "commit", "-q", "-m", "a link");
  expect(at(cwd, "HEAD", "sites/yard.mullion")).toEqual({ status: 0, err: "", holders: ["Unit 1", "Unit 2"] });
  renameSync(join(cwd, "sites"), join(cwd, "yards"));
  rmSync(join(cwd, "tiny.mullion"));
  expect(at(cwd, "HEAD", "sites/yard.mullion")).toEqual({ status: 0, err: "", holders: ["Unit 1", "Unit 2"] });
  expect(at(cwd, "HEAD", "yards/yard.mullion")).toMatchObject({ status: 2, err: "mullion: yards/yard.mullion was not there at HEAD\n" });
});

test("a file that git has and cannot give is not one that was not there", () => {
  const cwd = repositoryOf({ "yard.mullion": site, "tiny.mullion": model });
  const name = git(cwd, "rev-parse", "HEAD:tiny.mullion");
  rmSync(join(cwd, ".git/objects", name.slice(0, 2), name.slice(2)));
  expect(at(cwd, "HEAD")).toEqual({ status: 2, err: "mullion: git cannot read the files at HEAD\n", holders: [] });
});

test("a file that was no text then is said to be unreadable", () => {
  const cwd = repositoryOf({ "yard.mullion": site });
  writeFileSync(join(cwd, "tiny.mullion"), Buffer.from(`${model}// \xe9\n`, "latin1"));
  git(cwd, "add", ".");
  git(cwd, "commit", "-q", "-m", "latin");
  expect(at(cwd, "HEAD")).toMatchObject({ status: 2, err: "mullion: cannot read tiny.mullion: it is not UTF-8 text\n" });
});

test("a site is read in one go, however many files it has: git is started four times", () => {
  const parts = [...Array(20).keys()].map(n => [`part-${n}.mullion`, `holder x${n} "Extra ${n}"\n`] as const);
  const uses = parts.map(([name]) => `use "${name}"\n`).join("");
  const cwd = repositoryOf({ "yard.mullion": uses + site, "tiny.mullion": model, ...Object.fromEntries(parts) });
  const real = execFileSync("sh", ["-c", "command -v git"], { encoding: "utf8" }).trim();
  const bin = join(cwd, "bin");
  const log = join(cwd, "log");
  mkdirSync(bin);
  writeFileSync(join(bin, "git"), `#!/bin/sh\necho once >> "${log}"\nexec "${real}" "$@"\n`);
  chmodSync(join(bin, "git"), 0o755);
  const { status } = mullion(["who", "yard.mullion", "--at", "HEAD"], { cwd, env: { PATH: `${bin}:${process.env.PATH}` } });
  expect([status, readFileSync(log, "utf8").trim().split("\n").length]).toEqual([0, 4]);
});
