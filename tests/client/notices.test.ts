/** The licences of what is bundled stand beside it, as their authors ask: every package that the code imports, with its text. */
import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");
const line = `\n${"-".repeat(72)}\n\n`;

/** Packages by name, each with the text that stands below it. */
function sections(file: string): ReadonlyMap<string, string> {
  const texts = readFileSync(join(root, file), "utf8").split(line);
  return new Map(texts.map(text => [/^(\S+) \S+ \(.*\)\n/.exec(text)?.[1] ?? "", text.slice(text.indexOf("\n")).trim()]));
}

/** Packages that the files under these folders import and that are not gone when types are. */
function imported(...folders: readonly string[]): readonly string[] {
  const found = new Set<string>();
  for (const folder of folders) {
    for (const name of readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })) {
      if (!name.endsWith(".ts") || name.endsWith(".d.ts")) continue;
      const text = readFileSync(join(root, folder, name), "utf8");
      for (const [, type, from = ""] of text.matchAll(/^(?:import|export) (type )?(?:[^"']*? from )?"([^".][^"]*)"/gm)) {
        const [, own] = /^((?:@[^/]+\/)?[^/]+)/.exec(from) ?? [];
        if (!type && own && own !== "vscode" && !from.startsWith("node:")) found.add(own);
      }
    }
  }
  return [...found].sort();
}

const files = ["out/notices.txt", "out/cli-notices.txt"] as const;
if (!files.every(file => existsSync(join(root, file)))) execFileSync(process.execPath, [join(root, ".ci/build.mjs")], { stdio: "ignore" });
const [extension, commandLine] = files.map(sections) as [ReadonlyMap<string, string>, ReadonlyMap<string, string>];

describe.each([
  ["the extension", extension, imported("client", "server/lsp", "shared", "grammar")],
  // The language server goes with the command line, and brings its own.
  ["the command line", new Map([...commandLine, ...extension]), imported("server", "shared", "grammar")],
] as const)("%s", (_, said, packages) => {
  test("names every package that is imported", () => {
    expect(packages).toContain("chevrotain");
    expect(packages.filter(name => !said.has(name))).toEqual([]);
  });

  test("has a licence, in full, for each", () => {
    // The shortest of the usual ones has some 700 letters.
    expect([...said].filter(([, text]) => text.length < 600 || !/copyright|licen[cs]e/i.test(text)).map(([name]) => name)).toEqual([]);
  });

  test("leaves out no note that a licence asks to be passed on", () => {
    const notes = [...said.keys()].filter(name => {
      const folder = join(root, "node_modules", name);
      return existsSync(folder) && readdirSync(folder).some(entry => /^notice/i.test(entry));
    });
    expect(notes).toEqual([]);
  });
});
