/** README.md speaks the truth: its texts are clean, its commands run and say what it says they say, its table is that of the code. */
import { cpSync, existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checksTable } from "../shared/checks/explain.ts";
import { folderOf, mullion, root, words } from "./server/cli/support/mullion.ts";
import { commitAll } from "./server/cli/support/repository.ts";

const path = join(root, "README.md");
const readme = readFileSync(path, "utf8");
/** Its commands follow one another in one folder, and its files change on the way: it is walked through from beginning to end. */
const chapter = /^## Taking over a site\n[\s\S]*?(?=^## )/m.exec(readme)?.[0] ?? "";
const blocks = [...readme.replace(chapter, "").matchAll(/^```(\S*)\n([\s\S]*?)^```$/gm)].map(([, language = "", text = ""], index) => ({
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

describe("taking over a site, step by step", () => {
  const steps = [...chapter.matchAll(/^```(\S+)(?: (\S+))?(?: (holds))?\n([\s\S]*?)^```$/gm)];

  test("every file is written, every command run, and each says and leaves what stands there", () => {
    const cwd = folderOf();
    cpSync(join(root, "samples/models"), join(cwd, "models"), { recursive: true });
    const ran: string[] = [];
    for (const [, language, file, holds, text = ""] of steps) {
      if (file !== undefined && holds !== undefined) expect(readFileSync(join(cwd, file), "utf8")).toBe(text);
      else if (file !== undefined) writeFileSync(join(cwd, file), text);
      else expect(language).toBe("console");
      if (file?.endsWith(".mullion")) expect(mullion(["fmt", "--check", file], { cwd })).toEqual({ status: 0, out: "", err: "" });
      if (file !== undefined) continue;
      for (const [, line = "", said = ""] of text.matchAll(/^\$ mullion (.*)\n((?:(?!\$ ).*\n)*)/gm)) {
        const { out, err, status } = mullion(words(line), { cwd });
        expect({ line, err, status }).toEqual({ line, err: "", status: 0 });
        // A line of three dots stands for any lines.
        const parts = said.split("…\n").map(part => part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
        expect(out).toMatch(new RegExp(`^${parts.join("(?:.*\\n)*?")}$`));
        ran.push(line.split(" ")[0] ?? "");
      }
    }
    expect(ran).toEqual(["import", "check", "waiting", "sheet", "sheet", "record", "sheet", "record", "waiting"]);
  });

  test("its files are these, in this order", () => {
    const kinds = steps.map(([, language, file = "", holds = ""]) => [language, file, holds].join(" ").trim());
    expect(kinds.filter(kind => kind !== "console")).toEqual([
      "mullion wharf.mullion",
      "csv register.csv",
      "mullion wharf.fitted.mullion",
      "mullion wharf.fitted.mullion",
      "mullion wharf.fitted.mullion holds",
    ]);
  });
});

test("what the workflow runs can be run, and shows no code of the samples' people", () => {
  const cwd = folderOf();
  cpSync(join(root, "samples"), cwd, { recursive: true });
  for (const folder of ["broken", "saltings-yard"]) rmSync(join(cwd, folder), { recursive: true });
  commitAll(cwd);
  const people = join(cwd, "tannery-wharf/holders.mullion");
  writeFileSync(people, readFileSync(people, "utf8").replace("code 63182", "code 63197"));
  const runs = [
    ...of("yaml")
      .map(({ text }) => text)
      .join("")
      .matchAll(/out\/mullion\.js" (.*)/g),
  ].map(([, line = ""]) => line);
  const said = runs.map(line => {
    const asked = line.replace(/"\$\{\{ github\.event\.pull_request\.base\.sha \}\}"/, "HEAD").replace(/ >> .*$/, "");
    const { status, err, out } = mullion([...words(asked), ...today], { cwd });
    expect({ asked, status, err }).toEqual({ asked, status: 0, err: "" });
    return out;
  });
  expect(said.map(out => out.includes("Unit 4, bookbinder has a new code."))).toEqual([false, true]);
  expect(said.filter(out => /63182|63197/.test(out))).toEqual([]);
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
