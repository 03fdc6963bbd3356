// `npm run demo`: builds, checks the sample site, and writes its three run sheets into out/demo.
import { mkdirSync, readdirSync, rmSync } from "node:fs";
import { join, relative } from "node:path";
import { root, run } from "./node.mjs";

const folder = join(root, "out", "demo");
const site = join("samples", "tannery-wharf", "tannery-wharf.mullion");
const mullion = (...words) => run("node", [join(root, "out", "mullion.js"), ...words]);

if (run("node", [join(root, ".ci", "build.mjs"), "launcher", "cli", "server"]) !== 0) process.exit(1);
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });

console.log("$ mullion check samples/tannery-wharf samples/curlew-court\n");
const checked = mullion("check", join("samples", "tannery-wharf"), join("samples", "curlew-court"));
if (checked !== 0) process.exit(checked);

console.log(`\n$ mullion sheet ${site} -o out/demo\n`);
const written = mullion("sheet", site, "-o", folder);
if (written !== 0) process.exit(written);

console.log(`\n$ mullion sheet ${site} --keypad boat --format txt -o -\n`);
const shown = mullion("sheet", site, "--keypad", "boat", "--format", "txt", "-o", "-");
if (shown !== 0) process.exit(shown);

console.log("\nWhat to look at:");
for (const name of readdirSync(folder).sort())
  console.log(`  ${relative(root, join(folder, name))}, a run sheet for paper and phone: open it in a browser`);
console.log(`  ${site}, the text that they were made from
  samples/models, the six keypads, each described on one page

What to try: put two holders into one slot of ${site} and run
  npm run -s mullion -- check samples/tannery-wharf`);
