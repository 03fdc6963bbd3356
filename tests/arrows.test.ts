/** The arrows between the folders: each forbidden import, planted in a copy, is refused, and nothing else is. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";

const root = join(import.meta.dirname, "..");

/** File to plant, what stands in it, and the rule that must refuse it; no rule for what must be let through. */
const planted: readonly (readonly [file: string, content: string, rule: string | undefined])[] = [
  ["grammar/planted-shared.ts", 'import type { Finding } from "../shared/finding.ts";\nexport type P = Finding;\n', "grammar-stands-alone"],
  ["grammar/planted-package.ts", 'import pc from "picocolors";\nexport const p = pc;\n', "grammar-stands-alone"],
  ["grammar/planted-node.ts", 'import { join } from "node:path";\nexport const p = join;\n', "no-node-below-server"],
  [
    "grammar/planted-good.ts",
    'import { EOF } from "chevrotain";\nimport type { Span } from "./tree.ts";\nexport const p = EOF;\nexport type P = Span;\n',
    undefined,
  ],
  [
    "shared/planted-server.ts",
    'import type { Planted } from "../server/planted-good.ts";\nexport type P = Planted;\n',
    "shared-uses-grammar-only",
  ],
  ["shared/planted-client.ts", 'export { planted } from "../client/planted-good.ts";\n', "shared-uses-grammar-only"],
  ["shared/planted-node.ts", 'export const p = import("node:fs");\n', "no-node-below-server"],
  ["shared/planted-bare-node.ts", 'import fs from "fs";\nexport const p = fs;\n', "no-node-below-server"],
  ["shared/planted-good.ts", 'import type { Span } from "../grammar/tree.ts";\nexport type P = Span;\n', undefined],
  [
    "server/planted-client.ts",
    'import { planted } from "../client/planted-good.ts";\nexport const p = planted;\n',
    "server-never-uses-client",
  ],
  ["server/planted-tests.ts", 'import { planted } from "../tests/planted.ts";\nexport const p = planted;\n', "server-never-uses-client"],
  ["server/planted-nowhere.ts", 'import { gone } from "./gone.ts";\nexport const p = gone;\n', "nothing-unresolved"],
  [
    "server/planted-good.ts",
    'import { must } from "../shared/must.ts";\nimport type { Span } from "../grammar/tree.ts";\nexport type Planted = Span;\nexport const p = must;\n',
    undefined,
  ],
  ["client/planted-shared.ts", 'import { must } from "../shared/must.ts";\nexport const p = must;\n', "client-uses-requests-only"],
  ["client/planted-types.ts", 'import type { Site } from "../shared/site/site.ts";\nexport type P = Site;\n', "client-uses-requests-only"],
  ["client/planted-server.ts", 'export const p = () => import("../server/planted-good.ts");\n', "client-uses-requests-only"],
  ["client/planted-grammar.ts", 'import type { Span } from "../grammar/tree.ts";\nexport type P = Span;\n', "client-uses-requests-only"],
  [
    "client/planted-good.ts",
    'import type { Requests } from "../shared/requests.ts";\nexport type P = Requests;\nexport const planted = 1;\n',
    undefined,
  ],
  ["shared/keypad/encode-planted.ts", 'import { planted } from "./helper-planted.ts";\nexport const p = planted;\n', undefined],
  [
    "shared/keypad/replay-planted.ts",
    'import { must } from "../must.ts";\nimport { planted } from "./deep-planted.ts";\nexport const p = [planted, must];\n',
    undefined,
  ],
  ["shared/keypad/deep-planted.ts", 'export { planted } from "./helper-planted.ts";\n', undefined],
  ["shared/keypad/helper-planted.ts", "export const planted = 1;\n", "encoder-stands-alone"],
  [
    "shared/keypad/encode-planted-good.ts",
    'import { must } from "../must.ts";\nimport type { P } from "./types-planted.ts";\nexport const planted: P = must;\n',
    undefined,
  ],
  ["shared/keypad/recognise-planted.ts", 'export { t } from "./types-planted.ts";\n', undefined],
  ["shared/keypad/types-planted.ts", "export const t = 1;\nexport type P = unknown;\n", undefined],
  ["shared/planted-ring-one.ts", 'import { two } from "./planted-ring-two.ts";\nexport const one = () => two;\n', "no-cycles"],
  ["shared/planted-ring-two.ts", 'import { one } from "./planted-ring-one.ts";\nexport const two = () => one;\n', undefined],
  ["shared/planted-types-one.ts", 'import type { Two } from "./planted-types-two.ts";\nexport type One = Two | 1;\n', undefined],
  ["shared/planted-types-two.ts", 'import type { One } from "./planted-types-one.ts";\nexport type Two = readonly One[];\n', undefined],
];

let copy: string;
let said: string;
let status: number | null;

beforeAll(() => {
  // Inside the repository, so that packages are found from there; `out` is never looked at.
  mkdirSync(join(root, "out"), { recursive: true });
  copy = mkdtempSync(join(root, "out/arrows-"));
  for (const folder of ["grammar", "shared", "server", "client"]) mkdirSync(join(copy, folder));
  for (const file of [
    "grammar/tree.ts",
    "shared/finding.ts",
    "shared/must.ts",
    "shared/requests.ts",
    "shared/site/site.ts",
    "shared/keypad/model.ts",
    "shared/keypad/memory.ts",
  ])
    cpSync(join(root, file), join(copy, file), { recursive: true });
  mkdirSync(join(copy, "tests"));
  writeFileSync(join(copy, "tests/planted.ts"), "export const planted = 1;\n");
  for (const [file, content] of planted) writeFileSync(join(copy, file), content);
  // The file that leads nowhere would stop the search for cycles, as it stops every build.
  ({ said, status } = runArrows(copy));
  rmSync(join(copy, "server/planted-nowhere.ts"));
  said += runArrows(copy).said;
});

afterAll(() => rmSync(copy, { recursive: true, force: true }));

test.each(planted.filter(([, , rule]) => rule !== undefined))("%s is refused", (file, _content, rule) => {
  expect(rulesAgainst(file)).toContain(rule);
});

test.each(planted.filter(([, , rule]) => rule === undefined))("%s is let through", file => {
  expect(rulesAgainst(file)).toEqual([]);
});

test("a refusal fails the run", () => expect(status).toBe(1));

test("every rule is planted against", () => {
  const rules = [...readFileSync(join(root, ".dependency-cruiser.cjs"), "utf8").matchAll(/name: "([a-z-]+)"/g)].map(([, name]) => name);
  expect(new Set(planted.flatMap(([, , rule]) => rule ?? []))).toEqual(new Set([...rules, "no-cycles", "encoder-stands-alone"]));
});

function runArrows(folder: string): { said: string; status: number | null } {
  const ran = spawnSync(process.execPath, [join(root, ".ci/arrows.mjs"), folder], {
    encoding: "utf8",
    env: { ...process.env, NO_COLOR: "1" },
  });
  return { said: ran.stdout + ran.stderr, status: ran.status };
}

/** Rules in lines such as `error RULE: FILE → …`, each once. */
function rulesAgainst(file: string): readonly string[] {
  const lines = said.replaceAll(/\u001b\[\d+m/g, "").matchAll(/error ([a-z-]+): (\S+)/g);
  return [...new Set([...lines].flatMap(([, rule = "", from]) => (from === file ? [rule] : [])))];
}
