// Which folder may use which, and no cycles. `node .ci/arrows.mjs [FOLDER]`; a test plants forbidden imports and runs it on its copy.
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
const cycles = cyclesOf(await importsThatRun());
for (const cycle of cycles) console.error(`  error no-cycles: ${cycle.join(" → ")}`);
process.exitCode = cruised.status === 0 && cycles.length === 0 ? 0 : 1;

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
  }).catch(() => {
    console.error("  error no-cycles: not looked for, since an import leads nowhere");
    return { metafile: { inputs: {} } };
  });
  return new Map(
    Object.entries(metafile.inputs).map(([file, { imports }]) => [
      file,
      imports.filter(({ external }) => !external).map(({ path }) => path),
    ]),
  );
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
