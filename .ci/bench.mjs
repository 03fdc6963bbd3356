// `npm run bench [-- short]`: installs what it is measured against, builds what is measured, and measures. The short one takes nothing from elsewhere.
import { existsSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./node.mjs";

const bench = join(root, "tests/bench");
const words = process.argv.slice(2);
const steps = [
  ["node", [join(root, ".ci/build.mjs"), "launcher", "cli", "pdf", "server"]],
  ["node", ["--disable-warning=MODULE_TYPELESS_PACKAGE_JSON", join(bench, "main.ts"), ...words]],
];
if (!words.includes("short") && !existsSync(join(bench, "node_modules")))
  steps.unshift(["npm", ["ci", "--no-audit", "--no-fund", "--ignore-scripts", "--loglevel=error"], { cwd: bench }]);
for (const [program, args, options] of steps) {
  const status = run(program, args, options);
  if (status !== 0) process.exit(status);
}
