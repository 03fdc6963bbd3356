// The tests in a real VS Code: packs the extension, installs the package, runs the suites inside the extension host of the floor and
// of the newest, and clicks through the workbench. `node .ci/editor-tests.mjs [NAME…]` runs those whose name contains one of the words.
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { runTests } from "@vscode/test-electron";
import { build } from "esbuild";
import { chromiumOptions } from "./chromium.mjs";
import { desktopVsCode, installIntoDesktop } from "./desktop-vscode.mjs";
import { prepareHost } from "./editor-host.mjs";
import { installExtension } from "./editor-session.mjs";
import { walkThrough } from "./editor-walk.mjs";
import { root } from "./node.mjs";
import { packExtension } from "./package.mjs";

/** `host` is a VS Code of .ci/editor-host.mjs; where a desktop build is at hand, it takes the place of the newest. */
const runs = [
  { name: "site, newest", host: "newest", suite: "site", open: oneFolder },
  { name: "site, floor", host: "floor", suite: "site", open: oneFolder },
  { name: "restricted, newest", host: "newest", suite: "restricted", open: oneFolder, trust: true },
  { name: "sealed, newest", host: "newest", suite: "sealed", open: oneFolder },
  { name: "two roots, newest", host: "newest", suite: "two-roots", open: twoRoots },
  { name: "workbench, newest", host: "newest", walk: true },
];

/** The sites without the files that show what is found: those would drown what a test looks for. */
const soundOnly = { recursive: true, filter: source => !source.startsWith(join(root, "samples/broken")) };

const work = mkdtempSync(join(tmpdir(), "mullion-editor-tests-"));
const started = Date.now();
const seconds = () => ((Date.now() - started) / 1000).toFixed(1);
let passed = 0;
let failed = 0;
try {
  const asked = process.argv.slice(2);
  const wanted = runs.filter(run => asked.length === 0 || asked.some(word => run.name.includes(word)));
  const vsix = await packExtension();
  console.log(`packed: ${vsix.bytes} bytes`);
  await bundleSuites();
  await chromiumOptions();
  const desktop = await desktopVsCode();
  const hosts = new Map();
  for (const name of new Set(wanted.map(run => run.host))) {
    const host = await prepareHost(name);
    const extensions = join(work, `extensions-${name}`);
    installExtension(host, vsix.path, extensions);
    hosts.set(name, { host, extensions });
  }
  if (desktop) installIntoDesktop(desktop, vsix.path, join(work, "extensions-desktop"));
  console.log(`hosts ready after ${seconds()} s`);

  for (const run of wanted) {
    const { host, extensions } = hosts.get(run.host);
    const results = run.walk ? await walkTwice(host, extensions) : await runSuite(run, host, extensions, desktop);
    const red = results.filter(result => result.failure !== undefined);
    passed += results.length - red.length;
    failed += red.length;
    console.log(`${run.name}: ${results.length - red.length} passed, ${red.length} failed (${seconds()} s)`);
  }
} catch (error) {
  failed++;
  console.error(error);
} finally {
  rmSync(work, { recursive: true, force: true, maxRetries: 10 });
}
// In the shape of vitest's own report, for whoever adds them up.
writeFileSync(
  join(root, "out/editor-test-results.json"),
  JSON.stringify({ numPassedTests: passed, numFailedTests: failed, success: failed === 0 }),
);
console.log(`editor: ${passed} passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);

/** Clicks of a program may meet a workbench that is not ready for them: a walk that fails is begun once more, and what is wrong fails again. */
async function walkTwice(host, extensions) {
  const results = await walkThrough(host, extensions, freshSamples());
  if (!results.some(({ failure }) => failure !== undefined)) return results;
  console.log("once more");
  return walkThrough(host, extensions, freshSamples());
}

/** Runs one suite; that it did not run to its end counts as one failure. An editor that came up without its folders is started once more. */
async function runSuite(run, host, extensions, desktop, again = true) {
  console.log(`\n${run.name} (VS Code ${host.vscode})`);
  const onDesktop = desktop && run.host === "newest" && !run.trust;
  const folder = join(work, run.suite);
  rmSync(join(folder, "results.json"), { force: true });
  let end;
  try {
    await runTests({
      vscodeExecutablePath: onDesktop ? desktop : join(root, ".ci/editor-launcher.mjs"),
      extensionDevelopmentPath: folder,
      extensionTestsPath: join(folder, "suite.js"),
      launchArgs: [run.open(), `--extensions-dir=${onDesktop ? join(work, "extensions-desktop") : extensions}`],
      extensionTestsEnv: {
        MULLION_EDITOR_HOST: run.host,
        MULLION_EDITOR_TRUST: run.trust ? "1" : "",
        MULLION_EDITOR_PICTURE: join(root, `out/screenshots/${run.name.replaceAll(/\W+/g, "-")}.png`),
      },
    });
  } catch (error) {
    end = error.message;
  }
  try {
    const results = JSON.parse(readFileSync(join(folder, "results.json"), "utf8"));
    if (Array.isArray(results)) return results;
    if (again) return runSuite(run, host, extensions, desktop, false);
    return [{ name: run.name, failure: results }];
  } catch {
    console.log(`${run.name} has no results: ${end}`);
    return [{ name: run.name, failure: end ?? "no results" }];
  }
}

/** Each suite becomes a little extension of its own, which VS Code takes to be the one under development. */
async function bundleSuites() {
  for (const file of readdirSync(join(root, "tests/editor/inside")).filter(name => name.endsWith(".suite.ts"))) {
    const name = file.replace(".suite.ts", "");
    const folder = join(work, name);
    mkdirSync(folder, { recursive: true });
    writeFileSync(
      join(folder, "package.json"),
      JSON.stringify({ name: `tests-${name}`, publisher: "mullion-dev", version: "0.0.1", engines: { vscode: "*" } }),
    );
    await build({
      entryPoints: [join(root, "tests/editor/inside", file)],
      outfile: join(folder, "suite.js"),
      bundle: true,
      platform: "node",
      format: "cjs",
      external: ["vscode"],
      logLevel: "error",
    });
  }
}

function freshSamples() {
  const folder = mkdtempSync(join(work, "samples-"));
  cpSync(join(root, "samples"), folder, soundOnly);
  return folder;
}

function oneFolder() {
  return freshSamples();
}

/** A workspace of two folders that hold sites of the same names; what two real sites should not share, the installer codes, differs. */
function twoRoots() {
  const folder = mkdtempSync(join(work, "roots-"));
  for (const name of ["east", "west"]) cpSync(join(root, "samples"), join(folder, name), soundOnly);
  const holders = join(folder, "west/tannery-wharf/holders.mullion");
  const [others, installer] = readFileSync(holders, "utf8").split(/^(?=holder firm )/m);
  writeFileSync(holders, others + installer.replaceAll(/\b\d{5,}\b/g, digits => [...digits].reverse().join("")));
  const file = join(folder, "both.code-workspace");
  writeFileSync(file, JSON.stringify({ folders: [{ path: "east" }, { path: "west" }] }));
  return file;
}
