// `npm run mutate -- plan/cycles keypad/apply`: plants faults in files of shared/, one at a time, and says which of them no test notices.
import { existsSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./node.mjs";

const mutation = join(root, "tests/mutation");
const stryker = join(mutation, "node_modules/@stryker-mutator/core/bin/stryker.js");
const files = process.argv.slice(2);
if (files.length === 0) {
  console.error(
    "npm run mutate -- FOLDER/FILE…   files of shared/, such as plan/cycles; the tests of their folders are what notices, or not",
  );
  process.exit(2);
}
// Few random cases: whoever plants a thousand faults runs the tests a thousand times.
const env = { MULLION_RUNS: process.env.MULLION_RUNS || "40", MULLION_TESTS: process.env.MULLION_TESTS || folders().join(",") };
const steps = [
  ["node", [stryker, "run", join(mutation, "stryker.conf.mjs"), "--mutate", files.map(file => `shared/${file}.ts`).join(",")], { env }],
];
if (!existsSync(stryker))
  steps.unshift(["npm", ["ci", "--no-audit", "--no-fund", "--ignore-scripts", "--loglevel=error"], { cwd: mutation }]);
for (const [program, args, options] of steps) {
  const status = run(program, args, options);
  if (status !== 0) process.exit(status);
}

function folders() {
  return [...new Set(files.map(file => file.split("/")[0]))];
}
