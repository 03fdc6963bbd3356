/** README.md speaks the truth: its texts are clean, its commands run and say what it says they say, its table is that of the code. */
import { cpSync, existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checksTable } from "../shared/checks/explain.ts";
import { folderOf, mullion, root, words } from "./server/cli/support/mullion.ts";

const path = join(root, "README.md");
const readme = readFileSync(path, "utf8");
const blocks = [...readme.matchAll(/^```(\S*)\n([\s\S]*?)^```$/gm)].map(([, language = "", text = ""], index) => ({
  number: index + 1,
  language,
  text,
}));
const of = (language: string) => blocks.filter(block => block.language === language);
const today = ["--today", "2026-11-25"];

test("every block is of a kind that is tried here", () => {
  expect(new Set(blocks.map(({ language }) => language))).toEqual(new Set(["sh", "console", "mullion", "yaml"]));
});

describe("texts", () => {
  test.each(of("mullion"))("block $number is laid out and has nothing wrong with it", ({ text }) => {
    const cwd = folderOf({ "site.mullion": text });
    cpSync(join(root, "samples/models"), join(cwd, "models"), { recursive: true });
    expect(mullion(["check", "site.mullion", ...today], { cwd }).out).toMatch(/^\d+ files? checked: nothing found\n$/);
    expect(mullion(["fmt", "--check", "site.mullion"], { cwd })).toEqual({ status: 0, out: "", err: "" });
  });
});

describe("commands", () => {
  const lines = of("sh")
    .flatMap(({ text }) => text.trimEnd().split("\n"))
    .map(line => line.replace(/\s+#.*$/, ""));
  const { scripts } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));

  test.each(lines.filter(line => !line.startsWith("npm ")))("%s", line => {
    const cwd = folderOf();
    cpSync(join(root, "samples"), join(cwd, "samples"), { recursive: true });
    const [program, ...rest] = words(line);
    expect(program).toBe("mullion");
    const { status, err } = mullion(rest, { cwd });
    expect({ status, err }).toEqual({ status: 0, err: "" });
  });

  test("those of npm are scripts of package.json", () => {
    const named = lines.filter(line => line.startsWith("npm ")).map(line => line.replace(/^npm (?:run )?/, ""));
    expect(named).toEqual(["demo", "test"]);
    expect(named.filter(name => !(name in scripts))).toEqual([]);
  });

  test.each(of("console"))("block $number shows what is really said", ({ text }) => {
    const [line = "", ...said] = text.split("\n");
    const { out, err } = mullion(words(line.replace(/^\$ mullion /, "")));
    expect({ out, err }).toEqual({ out: said.join("\n"), err: "" });
  });

  test("every command stands in the table, with its options", () => {
    const table = /## Commands\n([\s\S]*?)\n## /.exec(readme)?.[1] ?? "";
    const named = [...table.matchAll(/^\| `([a-z-]+)/gm)].map(([, name]) => name);
    const listed = [...mullion(["--help"]).out.matchAll(/^ {2}([a-z][a-z-]*) /gm)].map(([, name]) => name);
    expect(named).toEqual(listed);
  });
});

test("the hooks that it names are those of .pre-commit-hooks.yaml", () => {
  const ids = (text: string) => [...text.matchAll(/- id: (\S+)/g)].map(([, id]) => id);
  expect(
    ids(
      of("yaml")
        .map(({ text }) => text)
        .join(""),
    ),
  ).toEqual(ids(readFileSync(join(root, ".pre-commit-hooks.yaml"), "utf8")));
});

test("the table of findings is that of the checks; UPDATE=1 writes it", () => {
  const between = /(<!-- checks: .*-->\n)[\s\S]*?(<!-- end of checks -->)/;
  expect(readme).toMatch(between);
  const whole = readme.replace(between, (_all, begin: string, end: string) => `${begin}${checksTable().trim()}\n${end}`);
  if (process.env.UPDATE) writeFileSync(path, whole);
  else expect(readme).toBe(whole);
});

test("its folders and files are there", () => {
  const named = [...readme.matchAll(/`((?:samples|out)\/[\w./-]+)`/g)]
    .map(([, file = ""]) => file)
    .filter(file => !file.startsWith("out/"));
  expect(named.filter(file => !existsSync(join(root, file)))).toEqual([]);
});
