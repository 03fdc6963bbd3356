/** What is staged in git is checked, and not what is on disk. */
import { chmodSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { bundle, clashing, folderOf, model, mullion, site } from "./support/mullion.ts";
import { git, gitStatus, repositoryOf } from "./support/repository.ts";

const yard = () => repositoryOf({ "sites/yard.mullion": site, "sites/tiny.mullion": model });
const write = (cwd: string, name: string, text: string) => writeFileSync(join(cwd, name), text);

/** Exit status and the codes of the findings. */
function found(cwd: string, ...words: string[]): readonly [number | null, readonly string[]] {
  const { out, status } = mullion(["check", ...words, "--format", "json"], { cwd });
  return [status, JSON.parse(out).findings.map(({ code }: { code: string }) => code)];
}

test("what is staged counts, not what is on disk", () => {
  const cwd = yard();
  write(cwd, "sites/yard.mullion", clashing);
  expect(found(cwd)).toEqual([1, ["slot-clash"]]);
  expect(found(cwd, "--staged")).toEqual([0, []]);
  git(cwd, "add", ".");
  write(cwd, "sites/yard.mullion", site);
  expect(found(cwd)).toEqual([0, []]);
  expect(found(cwd, "--staged")).toEqual([1, ["slot-clash"]]);
  // A file that is gone from disk is still staged, and one that was never staged is not there.
  rmSync(join(cwd, "sites/tiny.mullion"));
  expect(found(cwd, "--staged")).toEqual([1, ["slot-clash"]]);
  git(cwd, "rm", "-q", "--cached", "sites/tiny.mullion");
  write(cwd, "sites/tiny.mullion", model);
  expect(found(cwd, "--staged")).toEqual([1, ["use-missing", "name-unknown"]]);
});

test("from a folder inside, by name, with a name of another script, and through a link", () => {
  const cwd = yard();
  mkdirSync(join(cwd, "høne"));
  write(cwd, "høne/gård og\tskur.mullion", clashing.replace("tiny.mullion", "model.mullion"));
  symlinkSync("../sites/tiny.mullion", join(cwd, "høne/model.mullion"));
  git(cwd, "add", ".");
  expect(found(join(cwd, "sites"), "--staged")).toEqual([0, []]);
  expect(found(join(cwd, "sites"), "--staged", "../høne")).toEqual([1, ["slot-clash"]]);
  expect(found(cwd, "--staged", "sites/yard.mullion")).toEqual([0, []]);
  const { status, err } = mullion(["check", "--staged", "nothing"], { cwd });
  expect([status, err]).toEqual([2, expect.stringContaining("nothing is staged as nothing")]);
});

test("nothing staged is nothing wrong", () => {
  const cwd = yard();
  git(cwd, "rm", "-q", "-r", "--cached", ".");
  expect(found(cwd, "--staged")).toEqual([0, []]);
});

describe("a merge that puts two holders into one slot", () => {
  /** Two branches, each of which changes the yard in its own way; then the other is merged into this one. */
  function merged(ours: (text: string) => string, theirs: (text: string) => string) {
    const cwd = yard();
    git(cwd, "checkout", "-q", "-b", "theirs");
    write(cwd, "sites/yard.mullion", theirs(site));
    git(cwd, "commit", "-q", "-a", "-m", "theirs");
    git(cwd, "checkout", "-q", "main");
    write(cwd, "sites/yard.mullion", ours(site));
    git(cwd, "commit", "-q", "-a", "-m", "ours");
    return { cwd, status: gitStatus(cwd, "merge", "-q", "--no-commit", "theirs") };
  }

  test("without a word from git", () => {
    const { cwd, status } = merged(
      text => text.replace("    1 u1\n", "    3 u1\n"),
      text => text.replace("    2 u2\n  }", "    2 u2\n    3 u2\n  }"),
    );
    expect(status).toBe(0);
    // Theirs gave Unit 2 a second slot, which a keypad that refuses twins does not take either.
    expect(found(cwd, "--staged")).toEqual([1, ["slot-clash", "code-clash"]]);
  });

  test("with a conflict: not before it is settled, and not when its marks are staged", () => {
    const { cwd, status } = merged(
      text => text.replace("    1 u1\n", "    3 u1\n"),
      text => text.replace("    1 u1\n", "    3 u2\n"),
    );
    expect(status).toBe(1);
    const open = mullion(["check", "--staged"], { cwd });
    expect([open.status, open.err]).toEqual([
      2,
      "mullion: cannot read sites/yard.mullion: its merge is not finished; settle the conflict and stage the file\n",
    ]);
    git(cwd, "add", ".");
    const [ended, codes] = found(cwd, "--staged");
    expect([ended, codes[0]]).toEqual([1, "merge-conflict"]);
  });
});

test("a hook holds back a commit, of named files too", () => {
  const cwd = yard();
  const hook = join(cwd, ".git/hooks/pre-commit");
  mkdirSync(join(cwd, ".git/hooks"), { recursive: true });
  writeFileSync(hook, `#!/bin/sh\nexec "${process.execPath}" "${bundle}" check --staged\n`);
  chmodSync(hook, 0o755);
  const commit = (...words: string[]) => gitStatus(cwd, "commit", "-q", ...words);
  write(cwd, "sites/yard.mullion", clashing);
  expect(commit("-m", "clash", "sites/yard.mullion")).toBe(1);
  expect(commit("-a", "-m", "clash")).toBe(1);
  write(cwd, "sites/yard.mullion", site.replace("2 u2", "3 u2"));
  expect(commit("-m", "sound", "sites/yard.mullion")).toBe(0);
});

describe("cannot be asked", () => {
  test("outside a repository", () => {
    const cwd = folderOf({ "yard.mullion": site, "tiny.mullion": model });
    const { status, err } = mullion(["check", "--staged"], { cwd, env: { GIT_CEILING_DIRECTORIES: cwd } });
    expect([status, err]).toEqual([2, expect.stringContaining("this folder is in no git repository")]);
  });

  test("without git", () => {
    const { status, err } = mullion(["check", "--staged"], { cwd: yard(), env: { PATH: "/nowhere" } });
    expect([status, err]).toEqual([2, expect.stringContaining("git is not to be found")]);
  });
});
