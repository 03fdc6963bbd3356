/** What no compiler sees: unfinished work, banned calls, tests that assert nothing, and documents that no longer speak the truth. */
import { existsSync, globSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";

const root = join(import.meta.dirname, "..");
const files = globSync(
  [
    "*.{md,json,ts,cjs,mjs,yaml}",
    ".*.{cjs,yaml}",
    ".ci/*",
    "{grammar,shared,server,client,tests,syntaxes,samples}/**/*.{ts,mjs,js,json,md,css,html,mullion}",
  ],
  { cwd: root, exclude: ["**/node_modules/**", "package-lock.json"] },
).filter(file => file !== "tests/tidy.test.ts");
const texts = new Map(files.map(file => [file, readFileSync(join(root, file), "utf8")]));
const code = (pattern: RegExp) => (file: string) => pattern.test(file);

interface Ban {
  readonly what: string;
  readonly pattern: RegExp;
  readonly instead: string;
  readonly where: (file: string) => boolean;
  /** A line that breaks the ban: proof that it can fail. */
  readonly breaks: string;
}

const everywhere = () => true;
const pure = code(/^(grammar|shared)\/.*\.ts$/);
const tested = code(/^tests\/.*\.ts$/);

const bans: readonly Ban[] = [
  {
    what: "unfinished work",
    pattern: /\b(TODO|FIXME|XXX|HACK)\b/,
    instead: "finish it, or leave it out",
    where: everywhere,
    breaks: "// TODO later",
  },
  {
    what: "the clock",
    pattern: /\bDate\.now\b|\bnew Date\(\s*\)|\bperformance\.now\b/,
    instead: "pass the day in",
    where: pure,
    breaks: "const now = Date.now();",
  },
  {
    what: "chance",
    pattern: /\bMath\.random\b|\bcrypto\.(?:getRandomValues|randomUUID)\b/,
    instead: "pass a source of random bytes in",
    where: pure,
    breaks: "Math.random()",
  },
  {
    what: "the console",
    pattern: /\bconsole\.\w+\(/,
    instead: "return what is to be said",
    where: pure,
    breaks: "console.log(1)",
  },
  {
    what: "a test that runs alone or not at all",
    pattern: /\b(?:test|it|describe)(?:\.\w+)*\.(?:only|skip|todo|fails)\b/,
    instead: "run it",
    where: tested,
    breaks: "test.only('x', () => {})",
  },
  {
    what: "an error of any kind",
    pattern: /(?<!\bnot)\.(?:toThrow|toThrowError)\(\s*\)/,
    instead: "name the error",
    where: tested,
    breaks: "expect(f).toThrow()",
  },
  {
    what: "at least something",
    pattern:
      /\.length\)\.(?:toBeGreaterThan\(0\)|not\.toBe\(0\)|toBeTruthy)|\.length\s*>\s*0\)\.(?:toBe\(true|toBeTruthy)|\.toBeDefined\(\)|\.toBeTruthy\(\)/,
    instead: "compare the whole value",
    where: tested,
    breaks: "expect(found.length).toBeGreaterThan(0)",
  },
  {
    what: "an address of a package registry",
    pattern: /\bregistry\.[\w-]+\.(?:org|com|net)\b/,
    instead: "leave it to npm's own settings",
    where: everywhere,
    breaks: '"https://registry.example.org/x"',
  },
  {
    what: "a path of one machine",
    pattern: /(?<![\w./-])\/(?:work|home|root|Users)\/\w/,
    instead: "a path from the repository",
    where: code(/\.(ts|mjs|md|json|cjs|yaml)$/),
    breaks: "see /home/somebody",
  },
  {
    what: "a promise that nobody can give",
    pattern: /^(?!.*\b(?:never|not|no|nor|neither|nothing)\b).*\b(?:compliant|certified|safe to use)\b/i,
    instead: "say what was computed, and who decides",
    where: everywhere,
    breaks: "This door is compliant.",
  },
  {
    what: "an import without its ending",
    pattern: /from "\.{1,2}\/[^"]*(?<!\.(?:ts|json|mjs|js|css|mullion|md|ttf))"/,
    instead: "import with .ts",
    where: code(/\.ts$/),
    breaks: 'import { x } from "./x"',
  },
];

describe("bans", () => {
  test.each(bans)("$what", ({ pattern, where, instead, breaks }) => {
    expect(pattern.test(breaks)).toBe(true);
    const broken = [...texts]
      .filter(([file]) => where(file))
      .flatMap(([file, text]) => linesWith(text, pattern).map(line => `${file}:${line}: ${instead}`));
    expect(broken).toEqual([]);
  });
});

test("every file of the program says first what it is", () => {
  const silent = [...texts].filter(
    ([file, text]) => /^(grammar|shared|server|client|tests)\/.*(?<!\.test)\.ts$/.test(file) && !/^(\/\*\*|\/\/)/.test(text),
  );
  expect(silent.map(([file]) => file)).toEqual([]);
});

describe("lists of things are whole", () => {
  test.each([
    "server/cli/commands",
    "server/cli/findings/formats",
    "server/lsp/features",
    "shared/checks",
    "shared/doors/formats",
    "shared/review/formats",
    "shared/review/warnings",
    "shared/sheet/formats",
    "shared/who/formats",
    "client/commands",
  ])("%s", folder => {
    const list = texts.get(`${folder}/index.ts`) ?? "";
    const unlisted = readdirSync(join(root, folder)).filter(
      file => file.endsWith(".ts") && file !== "index.ts" && isThing(folder, file) && !list.includes(`"./${file}"`),
    );
    expect(unlisted).toEqual([]);
  });
});

describe("documents speak the truth", () => {
  const { scripts, version } = JSON.parse(texts.get("package.json") ?? "{}") as { scripts: Record<string, string>; version: string };
  const documents = ["README.md", "DEVELOPERS.md", "CHANGELOG.md"];
  const spoken = (document: string) => texts.get(document) ?? "";

  test.each(documents)("%s: its links lead somewhere", document => {
    const targets = [...spoken(document).matchAll(/\]\((?!https?:|#|mailto:)([^)#\s]+)/g)].map(([, target = ""]) => target);
    expect(targets.filter(target => !existsSync(join(root, dirname(document), target)))).toEqual([]);
  });

  test.each(documents)("%s: its npm scripts exist", document => {
    const named = [...spoken(document).matchAll(/\bnpm (?:run (?:-s )?([\w:-]+)|(test|start))/g)].map(
      ([, run, short]) => run ?? short ?? "",
    );
    expect(named.filter(name => !(name in scripts))).toEqual([]);
  });

  test.each(documents)("%s: the files and folders that it names exist", document => {
    const named = [...spoken(document).matchAll(/`((?:grammar|shared|server|client|tests|syntaxes|samples|\.ci)\/[\w./-]*)`/g)].map(
      ([, path = ""]) => path,
    );
    expect(named.filter(path => !existsSync(join(root, path)))).toEqual([]);
  });

  test("every invariant names the test that holds it", () => {
    const invariants = spoken("DEVELOPERS.md")
      .split("\n")
      .filter(line => line.includes("**Invariant:**"));
    expect(invariants.length).toBe(countedInvariants());
    const holders = invariants.map(line => /\(`(tests\/[\w./-]+\.test\.ts)`\)\.$/.exec(line)?.[1]);
    expect(holders.filter(file => file === undefined || !existsSync(join(root, file)))).toEqual([]);
  });

  test("the custom requests are those of the code", () => {
    const section = /## Custom requests\n([\s\S]*?)\n## /.exec(spoken("DEVELOPERS.md"))?.[1] ?? "";
    const written = [...section.matchAll(/`(mullion\/\w+)`/g)].map(([, name]) => name);
    const declared = [...(texts.get("shared/requests.ts") ?? "").matchAll(/readonly "(mullion\/\w+)"/g)].map(([, name]) => name);
    expect([...written].sort()).toEqual([...declared].sort());
  });

  test("every command is in README.md", () => {
    const commands = [...(texts.get("server/cli/commands/index.ts") ?? "").matchAll(/"\.\/([\w-]+)\.ts"/g)].map(([, name]) => name);
    expect(commands.filter(name => !spoken("README.md").includes(`\`${name}`))).toEqual([]);
  });

  test("the changelog knows this version", () => {
    expect(spoken("CHANGELOG.md")).toContain(`## ${version}`);
  });

  /** The list of invariants cannot be emptied unnoticed. */
  function countedInvariants(): number {
    return Number(/^(\d+) invariants hold/m.exec(spoken("DEVELOPERS.md"))?.[1]);
  }
});

function linesWith(text: string, pattern: RegExp): readonly number[] {
  return text.split("\n").flatMap((line, index) => (pattern.test(line) ? [index + 1] : []));
}

/** A file of a folder of things that is a thing of the list: it exports one object of the list's shape. */
function isThing(folder: string, file: string): boolean {
  const text = texts.get(`${folder}/${file}`) ?? "";
  const shapes: Record<string, RegExp> = {
    "server/cli/commands": /export const \w+: Command\b/,
    "server/cli/findings/formats": /export const \w+: FindingFormat\b/,
    "server/lsp/features": /export const \w+: Feature\b/,
    "shared/checks": /export const \w+ = check\(/,
    "shared/doors/formats": /export const \w+: DoorsFormat\b/,
    "shared/review/formats": /export const \w+: ReviewFormat\b/,
    "shared/review/warnings": /export const \w+: Warning\b/,
    "shared/sheet/formats": /export const \w+: Format\b/,
    "shared/who/formats": /export const \w+: WhoFormat\b/,
    "client/commands": /export const \w+: Command\b/,
  };
  return shapes[folder]?.test(text) ?? true;
}
