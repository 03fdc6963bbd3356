// Builds what is run: the command line with its small launcher, the language server, and the extension. `node .ci/build.mjs [NAME…]`, all without a name.
import { createHash } from "node:crypto";
import { chmodSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { build } from "esbuild";
import { lean } from "./lean.mjs";
import { root } from "./node.mjs";
import { writeNotices } from "./notices.mjs";
import { pack } from "./pack.mjs";

const tooOld =
  'if (parseInt(process.versions.node, 10) < 22) { console.error("mullion needs Node 22 or later; this is Node " + process.versions.node + "."); process.exit(2); }';
const forNode = { platform: "node", format: "cjs", target: "node22" };

/** What one file of the output leaves in another that stands beside it, and loads only when it is needed. */
const beside = (name, module, file) => ({
  name,
  setup: ({ onResolve }) => onResolve({ filter: /./ }, ({ path }) => (path === module ? { path: file, external: true } : undefined)),
});

/**
 * The argument library can start programs of its own, which nothing here asks of it, and asks for `process` in a way that makes Node
 * set up every standard stream. Both take longer than all that it does.
 */
const frugalArguments = {
  name: "frugal arguments",
  setup: ({ onResolve, onLoad }) => {
    onResolve({ filter: /^node:(child_)?process$/ }, ({ path, importer }) =>
      /[\\/]commander[\\/]/.test(importer) ? { path, namespace: "frugal-arguments" } : undefined,
    );
    onLoad({ filter: /./, namespace: "frugal-arguments" }, ({ path }) => ({
      contents: `module.exports = ${path === "node:process" ? "process" : "{}"}`,
    }));
  },
};

const parts = {
  launcher: {
    ...forNode,
    from: "server/cli/launcher.ts",
    to: "out/mullion.js",
    banner: { js: `#!/usr/bin/env node\n${tooOld}` },
  },
  cli: {
    ...forNode,
    from: "server/cli/main.ts",
    to: "out/cli.js",
    more: "out/cli-more.js",
    // The rest is for commands that do not start whenever a file is saved.
    soon: ["server/cli/asked.ts", "server/cli/findings/check-files.ts", "server/cli/findings/formats/index.ts"],
    plugins: [
      lean,
      frugalArguments,
      beside("language server", "../../lsp/main.ts", "./server.js"),
      beside("paper", "../../pdf/main.ts", "./pdf.mjs"),
      beside("sealing", "./age.ts", "./age.mjs"),
    ],
  },
  // The age library: only for those who have a sealed file.
  age: { platform: "browser", format: "esm", target: "es2022", from: "server/seal/age.ts", to: "out/age.mjs" },
  // Reads no file and knows nothing of Node: its fonts are in it.
  pdf: {
    platform: "browser",
    format: "esm",
    target: "es2022",
    from: "server/pdf/main.ts",
    to: "out/pdf.mjs",
    loader: { ".ttf": "binary" },
  },
  // Both worlds in one file: a process needs Node's half, a worker the browser's.
  server: {
    ...forNode,
    format: "iife",
    conditions: ["node", "browser"],
    plugins: [lean, beside("sealing", "./age.ts", "./age.mjs")],
    from: "server/lsp/anywhere.ts",
    to: "out/server.js",
  },
  extension: { ...forNode, from: "client/extension.ts", to: "out/extension.js", external: ["vscode"] },
  "browser-extension": {
    platform: "browser",
    format: "cjs",
    target: "es2022",
    from: "client/browser.ts",
    to: "out/browser-extension.js",
    external: ["vscode"],
  },
};

/** What goes into the packed extension, and what the command line carries beside it. */
const packed = ["server", "age", "extension", "browser-extension"];
const carried = ["launcher", "cli", "pdf", "age"];

const asked = process.argv.slice(2);
for (const name of asked)
  if (!(name in parts)) throw new Error(`nothing to build is called ${name}; there are ${Object.keys(parts).join(", ")}`);

const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
/** What the parser decides by: worked out here once, and not whenever a program starts. */
async function decisionsOfParser() {
  const { outputFiles } = await build({
    stdin: {
      contents:
        'import { MullionParser } from "./parser.ts"; import { prepare } from "./prepared.ts"; export const prepared = prepare(new MullionParser());',
      resolveDir: join(root, "grammar"),
    },
    bundle: true,
    format: "esm",
    write: false,
  });
  const { prepared } = await import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString("base64")}`);
  return JSON.stringify(JSON.stringify(prepared));
}

/** Put in place whole, so that a run of the file that is there goes on undisturbed. */
function put(path, contents, runs = false) {
  const making = `${path}.${process.pid}`;
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(making, contents);
  if (runs) chmodSync(making, 0o755);
  renameSync(making, path);
}

/**
 * As the launcher wants it: with its own hash as the first line, and in ASCII. Patterns are all that still holds other characters, and
 * a pattern may be written either way.
 */
function asBody(code) {
  const text = code.replace(/[^\0-\x7f]/g, unit => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`);
  return `//${createHash("sha256").update(text).digest("hex").slice(0, 16)}\n${text}`;
}

const built = asked.length > 0 ? asked : Object.keys(parts);
const decisions = await decisionsOfParser();
const inputs = new Map();
for (const name of built) {
  const { from, to, more, soon, ...own } = parts[name];
  const how = {
    ...own,
    entryPoints: [join(root, from)],
    bundle: true,
    minify: true,
    keepNames: false,
    metafile: true,
    write: false,
    legalComments: "none",
    define: {
      "process.env.NODE_ENV": '"production"',
      MULLION_VERSION: JSON.stringify(version),
      ...(own.plugins?.includes(lean) && { MULLION_DECISIONS: decisions }),
    },
  };
  if (more) {
    const packed = await pack(how, soon);
    put(join(root, more), asBody(packed.more));
    put(join(root, to), asBody(packed.begin));
    inputs.set(name, packed.inputs);
  } else {
    const { metafile, outputFiles } = await build({ ...how, outfile: join(root, to) });
    for (const { path, contents } of outputFiles) put(path, contents, name === "launcher");
    inputs.set(name, Object.keys(metafile.inputs));
  }
}
// Written only when all that is in a package has been built: half a list would be wrong.
for (const [names, file] of [
  [packed, "out/notices.txt"],
  [carried, "out/cli-notices.txt"],
])
  if (names.every(name => inputs.has(name)))
    writeNotices(
      names.flatMap(name => inputs.get(name)),
      file,
    );
