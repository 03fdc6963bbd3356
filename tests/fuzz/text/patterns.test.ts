/** No pattern, of the program or of the colouring, can be made to blow up by any text: each is looked at by a checker made for this. */
import { globSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parseSync } from "@swc/core";
import { check } from "recheck";
import { expect, test } from "vitest";

const root = join(import.meta.dirname, "../../..");

interface Pattern {
  readonly source: string;
  readonly flags: string;
  readonly where: string;
}

/** Patterns written as such in the program; those that are put together at run time are below. */
function written(): readonly Pattern[] {
  const found: Pattern[] = [];
  for (const where of globSync("{grammar,shared,server,client}/**/*.ts", { cwd: root })) {
    const look = (node: unknown): void => {
      if (typeof node !== "object" || node === null) return;
      const { type, pattern, flags } = node as { type?: string; pattern?: string; flags?: string };
      if (type === "RegExpLiteral") found.push({ source: pattern ?? "", flags: flags ?? "", where });
      for (const each of Object.values(node)) look(each);
    };
    look(parseSync(readFileSync(join(root, where), "utf8"), { syntax: "typescript", target: "es2022" }));
  }
  return found;
}

/** Patterns of the colouring and of typing, whose language is another: what it says in its own way is said in ours. */
function colouring(): readonly Pattern[] {
  const found: Pattern[] = [];
  for (const where of globSync("syntaxes/*.json", { cwd: root })) {
    const look = (node: unknown): void => {
      if (typeof node !== "object" || node === null) return;
      for (const [key, value] of Object.entries(node)) {
        const isPattern =
          /^(?:match|begin|end|while|firstLineMatch|wordPattern|(?:in|de)creaseIndentPattern|beforeText|afterText|previousLineText)$/.test(
            key,
          );
        if (isPattern && typeof value === "string") found.push({ source: inOurWay(value), flags: "", where });
        else look(value);
      }
    };
    look(JSON.parse(readFileSync(join(root, where), "utf8")));
  }
  return found;
}

/** `\G` is the place where the search begins, and what an end repeats of its beginning stands there as it is. */
function inOurWay(pattern: string): string {
  const ours = { "\\G": "^", "\\A": "^", "\\z": "$", "\\h": "[0-9A-Fa-f]", "(?i:": "(?:" };
  const said = Object.entries(ours).reduce((now, [theirs, our]) => now.replaceAll(theirs, our), pattern);
  return said.replaceAll(/\\[1-9]/g, "```");
}

/** One of each, with the first place where it stands. */
const patterns = [...new Map([...colouring(), ...written()].map(each => [`${each.source}/${each.flags}`, each])).values()];

test("a pattern that can blow up is seen", async () => {
  for (const source of ["^(a+)+$", "^\\s*(.*?)\\s*$"]) expect((await check(source, "", { randomSeed: 1 })).status).toBe("vulnerable");
});

test(`none of ${patterns.length} patterns can be made to blow up`, async () => {
  const bad: string[] = [];
  for (const { source, flags, where } of patterns) {
    const said = await check(source, flags, { timeout: 20_000, randomSeed: 1 });
    if (said.status !== "safe") bad.push(`${where}: ${said.status}: /${source}/${flags}`);
  }
  expect(bad).toEqual([]);
}, 120_000);
