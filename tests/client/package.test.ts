/** What is packed and what package.json promises the editor. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { listFiles, PackageManager } from "@vscode/vsce";
import { describe, expect, test } from "vitest";

const root = join(import.meta.dirname, "../..");
const manifest = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const { contributes } = manifest;

describe("the package", () => {
  test("holds these files and no other", async () => {
    const files = await listFiles({ cwd: root, packageManager: PackageManager.None });
    // What is built may not be there yet when this runs.
    const built = ["README.md", "out/age.mjs", "out/browser-extension.js", "out/extension.js", "out/notices.txt", "out/server.js"];
    expect([...new Set([...files, ...built])].sort()).toMatchInlineSnapshot(`
      [
        "LICENSE",
        "README.md",
        "client/icons/file-dark.svg",
        "client/icons/file-light.svg",
        "client/icons/mullion.png",
        "client/icons/mullion.svg",
        "client/walkthrough/findings.md",
        "client/walkthrough/keys.md",
        "client/walkthrough/record.md",
        "client/walkthrough/sheet.md",
        "client/walkthrough/site.md",
        "out/age.mjs",
        "out/browser-extension.js",
        "out/extension.js",
        "out/notices.txt",
        "out/server.js",
        "package.json",
        "syntaxes/language-configuration.json",
        "syntaxes/markdown.tmLanguage.json",
        "syntaxes/mullion.code-snippets",
        "syntaxes/mullion.tmLanguage.json",
        "syntaxes/template.tmLanguage.json",
      ]
    `);
  });

  test("needs nothing to be installed beside it", () => {
    expect(manifest.dependencies ?? {}).toEqual({});
    expect(manifest.extensionDependencies ?? []).toEqual([]);
  });
});

test("the command line is packed with all that it loads", () => {
  const body = ["out/cli.js", "out/cli-more.js"];
  const loaded = body.flatMap(file =>
    [...readFileSync(join(root, file), "utf8").matchAll(/"(?:\.\/)?([a-z-]+\.mjs)"/g)].map(([, name]) => `out/${name}`),
  );
  expect([...new Set(loaded)].sort()).toEqual(["out/age.mjs", "out/pdf.mjs"]);
  const named = readFileSync(join(root, ".npmignore"), "utf8").split("\n");
  expect(["out/mullion.js", ...body, "out/server.js", ...loaded].filter(file => !named.includes(`!${file}`))).toEqual([]);
});

describe("package.json", () => {
  test("asks for the VS Code whose interface it is written against", () => {
    expect(manifest.engines.vscode).toBe(`^${manifest.devDependencies["@types/vscode"]}`);
  });

  test("lets VS Code find out by itself when to start the extension", () => {
    expect(manifest.activationEvents).toEqual(["onWebviewPanel:mullion.sheet"]);
  });

  test("works where nothing may be run and where there is no disk", () => {
    expect(manifest.capabilities).toEqual({ untrustedWorkspaces: { supported: true }, virtualWorkspaces: { supported: true } });
  });

  test("names only files that are there", () => {
    const paths = JSON.stringify(contributes).match(/"(?:\.\/)?(?:client|syntaxes)\/[^"]+"/g) ?? [];
    expect(paths.length).toBeGreaterThan(10);
    expect(paths.map(path => JSON.parse(path)).filter(path => !existsSync(join(root, path)))).toEqual([]);
  });

  test("states for every setting where it may be set", () => {
    const settings = Object.entries<{ scope?: string; default?: unknown }>(contributes.configuration.properties);
    expect(settings.map(([name, { scope }]) => `${name}: ${scope}`)).toEqual([
      "mullion.inlayHints: resource",
      "mullion.maskCodes: window",
      "mullion.sheetFormat: resource",
    ]);
    expect(settings.filter(([, setting]) => setting.default === undefined)).toEqual([]);
  });

  test("has a first walk of five steps", () => {
    expect(contributes.walkthroughs.map((walk: { steps: unknown[] }) => walk.steps.length)).toEqual([5]);
  });

  test("has a title for every command of the extension, and a command for every title", () => {
    const folder = join(root, "client/commands");
    const source = readdirSync(folder).map(name => readFileSync(join(folder, name), "utf8"));
    const made = source.flatMap(text => [...text.matchAll(/^ {2}id: "(mullion\.\w+)"/gm)].map(found => found[1]));
    const listed = readFileSync(join(folder, "index.ts"), "utf8")
      .match(/readonly Command\[\] = \[([^\]]+)\]/)?.[1]
      ?.split(",")
      .filter(name => name.trim() !== "");
    const titled = contributes.commands.map((command: { command: string }) => command.command);
    expect(made.sort()).toEqual(titled.sort());
    expect(listed?.length).toBe(made.length);
  });
});
