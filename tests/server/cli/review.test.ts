/** `mullion review` between two files and since a git revision, on scratch repositories. */
import { mkdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { clashing, folderOf, model, mullion, site } from "./support/mullion.ts";
import { git, repositoryOf } from "./support/repository.ts";

const yard = () => repositoryOf({ "sites/yard.mullion": site, "sites/tiny.mullion": model });
const write = (cwd: string, name: string, text: string) => writeFileSync(join(cwd, name), text);
const day = ["--today", "2026-11-25"];
const review = (cwd: string, ...words: string[]) => mullion(["review", ...words, ...day], { cwd });

const moved = site.replace("code 5590", "code 8237").replace("    2 u2\n", "    3 u2\n");

test("since a revision: sentences, what is to be typed, and exit status 1 only where that is asked for", () => {
  const cwd = yard();
  write(cwd, "sites/yard.mullion", moved);
  const said = review(cwd, "sites/yard.mullion", "--since", "HEAD");
  expect(said).toEqual({
    status: 0,
    err: "",
    out: `Reed Yard
Compared with HEAD, on 2026-11-25.

For people and doors
  Unit 2 has a new code.

At the keypads
  Unit 2's code moves to slot 3 of Foot gate, before: 2.

To be typed
  Lane gate (gate): 2 entries, 20 keys, about 1 minute; supposing that the old text has been typed, since there is no record.
  A keypad does what was typed into it last: what stands above is so when this has been typed.
`,
  });
  expect(review(cwd, "sites/yard.mullion", "--since", "HEAD", "--exit-code").status).toBe(1);
  git(cwd, "commit", "-q", "-a", "-m", "second");
  expect(review(cwd, "sites/yard.mullion", "--since", "HEAD", "--exit-code")).toMatchObject({ status: 0, err: "" });
  expect(review(cwd, "sites/yard.mullion", "--since", "HEAD~1").out).toBe(said.out.replace("with HEAD,", "with HEAD~1,"));
  git(cwd, "tag", "spring", "HEAD~1");
  expect(review(join(cwd, "sites"), "yard.mullion", "--since", "spring").out).toBe(said.out.replace("with HEAD,", "with spring,"));
});

test("a site whose folder was given another name is the same site; where two have its name nothing is supposed", () => {
  const cwd = yard();
  renameSync(join(cwd, "sites"), join(cwd, "yards"));
  expect(review(cwd, ".", "--since", "HEAD")).toMatchObject({ status: 0, out: expect.stringContaining("Nobody and no door is touched") });
  write(cwd, "yards/yard.mullion", moved);
  const { out } = review(cwd, ".", "--since", "HEAD");
  expect(out).toContain("For people and doors\n  Unit 2 has a new code.\n");
  expect(out).not.toMatch(/ is new|taken out/);
  write(cwd, "yards/other.mullion", moved);
  const both = review(cwd, ".", "--since", "HEAD").out;
  expect(both).toContain("Unit 2 (u2) is taken out of the text.");
  expect(both).toContain("Unit 2 (u2) is new.");
});

test("two files, each with its own record; a label alone is nothing to type", () => {
  const cwd = folderOf({
    "old.mullion": site,
    "new.mullion": moved,
    "label.mullion": site.replace('"Unit 2"', '"Unit 2, rope"'),
    "tiny.mullion": model,
  });
  expect(review(cwd, "old.mullion", "new.mullion", "--exit-code")).toMatchObject({ status: 1, err: "" });
  const label = review(cwd, "old.mullion", "label.mullion", "--exit-code");
  expect([label.status, label.out.includes("  code-inherited\n")]).toEqual([0, true]);
  expect(review(cwd, "old.mullion", "old.mullion", "--exit-code")).toMatchObject({ status: 0, err: "" });
});

test("what was typed and recorded in the same change is not to type any more; what is left of it is", () => {
  const cwd = folderOf({ "sites/yard.mullion": site, "sites/tiny.mullion": model });
  const run = (...words: string[]) => mullion(words, { cwd });
  const numberOf = () =>
    JSON.stringify(run("sheet", "sites/yard.mullion", "--format", "txt", "-o", "-").out).match(/([0-9A-Z]{3}-[0-9A-Z]{3})/)?.[1] ?? "";
  const recordSome = (...words: string[]) =>
    run("record", "sites/yard.mullion", "--keypad", "gate", "--sheet", numberOf(), ...words, "--date", "2026-11-20").status;
  expect(recordSome("--all")).toBe(0);
  git(cwd, "init", "-q", "-b", "main");
  git(cwd, "add", ".");
  git(cwd, "commit", "-q", "-m", "typed");
  write(cwd, "sites/yard.mullion", moved);
  const before = review(cwd, "sites", "--since", "HEAD", "--exit-code");
  expect([before.status, before.out.includes("Lane gate (gate): 2 entries, 20 keys, about 1 minute.\n")]).toEqual([1, true]);
  expect(recordSome("--done", "1")).toBe(0);
  const half = review(cwd, "sites", "--since", "HEAD", "--exit-code");
  expect([half.status, half.out.includes("Lane gate (gate): 1 entry, 16 keys, about 1 minute.\n")]).toEqual([1, true]);
  expect(recordSome("--all")).toBe(0);
  const after = review(cwd, "sites", "--since", "HEAD", "--exit-code");
  expect([after.status, after.out.includes("Lane gate (gate): nothing, the record says that it has been typed.\n")]).toEqual([0, true]);
});

describe("a folder", () => {
  test("every site under it that changed, is new or is gone; the others and models alone are not told", () => {
    const named = (name: string) => site.replace("Reed Yard", name);
    const cwd = repositoryOf({
      "a/yard.mullion": named("Alder Yard"),
      "a/tiny.mullion": model,
      "b/yard.mullion": named("Beech Yard"),
      "b/tiny.mullion": model,
      "c/yard.mullion": named("Cedar Yard"),
      "c/tiny.mullion": model,
      "models/other.mullion": model.replace("model tiny", "model other"),
    });
    const sites = (...words: string[]) => {
      const { status, out } = review(cwd, ".", "--since", "HEAD", "--format", "json", ...words);
      return [
        status,
        JSON.parse(out).sites.map((one: { site?: string; file: string; isNew?: boolean }) => [one.file, one.site, one.isNew]),
      ];
    };
    expect(sites()).toEqual([0, []]);
    expect(review(cwd, ".", "--since", "HEAD").out).toBe("Nothing changes at 3 sites.\n");
    write(cwd, "a/yard.mullion", named("Alder Yard").replace("code 5590", "code 8237"));
    rmSync(join(cwd, "c"), { recursive: true });
    mkdirSync(join(cwd, "d"));
    write(cwd, "d/yard.mullion", named("Dogwood Yard"));
    write(cwd, "d/tiny.mullion", model);
    expect(sites("--exit-code")).toEqual([
      1,
      [
        ["a/yard.mullion", "Alder Yard", undefined],
        ["c/yard.mullion", undefined, undefined],
        ["d/yard.mullion", "Dogwood Yard", true],
      ],
    ]);
    const md = review(cwd, ".", "--since", "HEAD", "--format", "md").out;
    expect([...md.matchAll(/^## (.*)$/gm)].map(([, title]) => title)).toEqual(["Alder Yard", "Cedar Yard", "Dogwood Yard"]);
  });

  test("one that was moved away is still found as it was", () => {
    const cwd = yard();
    renameSync(join(cwd, "sites"), join(cwd, "yards"));
    expect(review(cwd, "sites", "--since", "HEAD").out).toContain("Lane gate (gate) is no longer in the text");
  });
});

test("a merge that puts two holders into one slot without a word from git: review says what it means", () => {
  const cwd = yard();
  git(cwd, "checkout", "-q", "-b", "theirs");
  write(cwd, "sites/yard.mullion", site.replace("    1 u1\n", "    3 u1\n"));
  git(cwd, "commit", "-q", "-a", "-m", "theirs");
  git(cwd, "checkout", "-q", "main");
  write(
    cwd,
    "sites/yard.mullion",
    site.replace("    2 u2\n  }", "    2 u2\n    3 u3\n  }").replace("holder u2", 'holder u3 "Unit 3" code 8237\nholder u2'),
  );
  git(cwd, "commit", "-q", "-a", "-m", "ours");
  git(cwd, "merge", "-q", "-m", "both", "theirs");
  const { status, out } = review(cwd, ".", "--since", "HEAD^1", "--format", "json", "--exit-code");
  const [{ findings, work }] = JSON.parse(out).sites;
  expect([status, findings.map(({ code }: { code: string }) => code), work[0].why]).toEqual([
    1,
    ["slot-clash"],
    "an error holds its sheet back",
  ]);
});

describe("cannot be done", () => {
  test("what is named is not there, then or now; a revision that git does not know; a record alone", () => {
    const cwd = yard();
    expect(review(cwd, "sites/yard.mullion").err).toBe("mullion: name the old file and the new one, or a git revision with --since\n");
    expect(review(cwd, "no.mullion", "--since", "HEAD")).toMatchObject({
      status: 2,
      err: "mullion: no such file or folder, then or now: no.mullion\n",
    });
    expect(review(cwd, "sites/yard.mullion", "--since", "never").err).toBe("mullion: git knows no revision never\n");
    expect(review(cwd, "sites/yard.fitted.mullion", "--since", "HEAD")).toMatchObject({ status: 2 });
    expect(review(cwd, "sites/tiny.mullion", "sites/no.mullion")).toMatchObject({
      status: 2,
      err: "mullion: no such file: sites/no.mullion\n",
    });
  });

  test("outside a repository, and without git", () => {
    const cwd = folderOf({ "yard.mullion": site, "tiny.mullion": model });
    const { status, err } = mullion(["review", "yard.mullion", "--since", "HEAD"], { cwd, env: { GIT_CEILING_DIRECTORIES: cwd } });
    expect([status, err]).toEqual([2, `mullion: ${join(cwd, "yard.mullion")} is in no git repository\n`]);
    expect(mullion(["review", "yard.mullion", "--since", "HEAD"], { cwd, env: { PATH: "/nowhere" } })).toMatchObject({
      status: 2,
      err: "mullion: git is not to be found; earlier revisions and what is staged are read with it\n",
    });
  });
});

test("a text with conflict marks or half typed is reviewed as far as it can be read", () => {
  const cwd = yard();
  write(cwd, "sites/yard.mullion", `<<<<<<< ours\n=======\n>>>>>>> theirs\n${clashing}\nholder u4 "Un`);
  const { status, out } = review(cwd, "sites", "--since", "HEAD", "--format", "json");
  expect([status, JSON.parse(out).sites[0].findings.map(({ code }: { code: string }) => code)]).toEqual([
    0,
    ["merge-conflict", "slot-clash", "syntax"],
  ]);
});
