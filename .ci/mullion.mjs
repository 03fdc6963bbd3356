// `npm run -s mullion -- check samples`: the built command line with the project's own Node, in the folder it was called from.
import { existsSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./node.mjs";

const bundle = join(root, "out", "mullion.js");
const built = existsSync(bundle) ? 0 : run("node", [join(root, ".ci", "build.mjs"), "launcher", "cli", "server"]);
process.exitCode = built === 0 ? run("node", [bundle, ...process.argv.slice(2)], { cwd: process.env.INIT_CWD }) : built;
