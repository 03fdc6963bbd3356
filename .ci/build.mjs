// Builds what is run: the command line and the language server, one file each, and the extension. `node .ci/build.mjs [NAME…]`, all without a name.
import { chmodSync, mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { root } from "./node.mjs";
import { writeNotices } from "./notices.mjs";

const tooOld =
  'if (parseInt(process.versions.node, 10) < 22) { console.error("mullion needs Node 22 or later; this is Node " + process.versions.node + "."); process.exit(2); }';
const forNode = { platform: "node", format: "cjs", target: "node22" };

const parts = {
  cli: { ...forNode, from: "server/cli/main.ts", to: "out/mullion.js", banner: { js: `#!/usr/bin/env node\n${tooOld}` } },
  server: { ...forNode, from: "server/lsp/main.ts", to: "out/server.js" },
  extension: { ...forNode, from: "client/extension.ts", to: "out/extension.js", external: ["vscode"] },
};

const asked = process.argv.slice(2);
for (const name of asked)
  if (!(name in parts)) throw new Error(`nothing to build is called ${name}; there are ${Object.keys(parts).join(", ")}`);

mkdirSync(join(root, "out"), { recursive: true });
const inputs = [];
for (const name of asked.length > 0 ? asked : Object.keys(parts)) {
  const { from, to, ...how } = parts[name];
  const outfile = join(root, to);
  rmSync(outfile, { force: true });
  const { metafile } = await build({
    ...how,
    entryPoints: [join(root, from)],
    outfile,
    bundle: true,
    minify: true,
    keepNames: false,
    metafile: true,
    legalComments: "none",
    define: { "process.env.NODE_ENV": '"production"' },
  });
  inputs.push(...Object.keys(metafile.inputs));
  if (name === "cli") chmodSync(outfile, 0o755);
}
if (asked.length === 0) writeNotices(inputs);
