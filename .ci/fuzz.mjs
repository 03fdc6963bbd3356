// `npm run fuzz -- --minutes N`: random texts, edits, plans and files for as long as one likes. Node reads the types away itself.
import { join } from "node:path";
import { root, run } from "./node.mjs";

process.exitCode = run("node", [
  "--disable-warning=MODULE_TYPELESS_PACKAGE_JSON",
  join(root, "tests/fuzz/run.ts"),
  ...process.argv.slice(2),
]);
