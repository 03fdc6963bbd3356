// Which folder may use which, no cycles, and encoder and recogniser apart. `node .ci/arrows.mjs [FOLDER]`; a test plants forbidden imports and runs it on its copy.
import { spawnSync } from "node:child_process";
import { globSync } from "node:fs";
import { join, resolve } from "node:path";
import { build } from "esbuild";
import { root } from "./node.mjs";

const folder = resolve(process.argv[2] || root);
const folders = ["grammar", "shared", "server", "client"];

const cruised = spawnSync(
  process.execPath,
  [join(root, "node_modules/dependency-cruiser/bin/dependency-cruise.mjs"), "--config", join(root, ".dependency-cruiser.cjs"), ...folders],
  { cwd: folder, stdio: ["ignore", "inherit", "inherit"] },
);
const graph = await importsThatRun();
const refused = [
  ...cyclesOf(graph).map(cycle => `no-cycles: ${cycle.join(" → ")}`),
  ...sharedByBoth(graph).map(file => `encoder-stands-alone: ${file} is used by the encoder and by the recogniser`),
];
for (const words of refused) console.error(`  error ${words}`);
if (cruised.status !== 0 || refused.length > 0) process.exitCode = 1;

/** File to the files of this repository that it imports when it runs: esbuild has dropped the imports of types. */
async function importsThatRun() {
  const files = folders.flatMap(name => globSync(`${name}/**/*.ts`, { cwd: folder }));
  const { metafile } = await build({
    entryPoints: files.map(file => join(folder, file)),
    absWorkingDir: folder,
    outdir: join(folder, "out"),
    bundle: true,
    packages: "external",
    external: ["vscode"],
    platform: "node",
    format: "esm",
    write: false,
    metafile: true,
    logLevel: "silent",
    loader: { ".ttf": "empty" },
  }).catch(error => {
    console.error(`  error no-cycles: not looked for: ${error.errors?.map(({ text }) => text).join("; ") || error.message}`);
    process.exitCode = 1;
    return { metafile: { inputs: {} } };
  });
  return new Map(
    Object.entries(metafile.inputs).map(([file, { imports }]) => [
      file,
      imports.filter(({ external }) => !external).map(({ path }) => path),
    ]),
  );
}

/**
 * What is typed and what is understood are written independently and check each other, so that they share no code that runs;
 * the one assertion that everybody uses is no part of either.
 */
function sharedByBoth(graph) {
  const reached = pattern => {
    const files = new Set([...graph.keys()].filter(file => pattern.test(file)));
    for (const file of files) for (const next of graph.get(file) || []) files.add(next);
    return files;
  };
  const recogniser = reached(/^shared\/keypad\/(?:replay|recogni)/);
  return [...reached(/^shared\/keypad\/encode/)].filter(file => recogniser.has(file) && file !== "shared/must.ts");
}

/** Every cycle once, found by going down from each file that is not done yet. */
function cyclesOf(graph) {
  const found = [];
  const done = new Set();
  const path = [];
  const visit = file => {
    const at = path.indexOf(file);
    if (at >= 0) found.push(fromSmallest(path.slice(at)));
    if (at >= 0 || done.has(file)) return;
    path.push(file);
    for (const next of graph.get(file) || []) visit(next);
    path.pop();
    done.add(file);
  };
  for (const file of graph.keys()) visit(file);
  return found;
}

/** The same cycle reads the same, wherever it was entered. */
function fromSmallest(cycle) {
  const at = cycle.indexOf([...cycle].sort()[0]);
  return [...cycle.slice(at), ...cycle.slice(0, at), cycle[at]];
}
