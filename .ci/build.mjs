// Builds the command line (one file), later the extension. `node .ci/build.mjs [--minify]`.
import { build } from "esbuild";
import { mkdirSync, chmodSync } from "node:fs";
import { join } from "node:path";
import { root } from "./node.mjs";

mkdirSync(join(root, "out"), { recursive: true });
const tooOld = 'if (parseInt(process.versions.node, 10) < 22) { console.error("mullion needs Node 22 or later; this is Node " + process.versions.node + "."); process.exit(2); }';

await build({
  entryPoints: [join(root, "server/cli/main.ts")],
  outfile: join(root, "out/mullion.js"),
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node22",
  minify: true,
  keepNames: false,
  legalComments: "none",
  banner: { js: `#!/usr/bin/env node\n${tooOld}` },
  define: { "process.env.NODE_ENV": '"production"' },
});
chmodSync(join(root, "out/mullion.js"), 0o755);
