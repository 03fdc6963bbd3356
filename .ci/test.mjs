// `npm test`: build, types, style, arrows, tests, the tests in a real browser, the short bench, and the tests in a real editor. The last line counts what passed and what failed.
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./node.mjs";

const out = join(root, "out");
const unitResults = join(out, "test-results.json");
const browserResults = join(out, "browser-test-results.json");
const benchResults = join(out, "bench-test-results.json");
const editorResults = join(out, "editor-test-results.json");

/** Each counts as one passed or failed, unless it has counted its own tests in a file of results. */
const steps = [
  { name: "build", program: "node", args: [join(root, ".ci/build.mjs")] },
  { name: "types", program: "tsc", args: ["-b"] },
  { name: "style", program: "biome", args: ["check", "--error-on-warnings", "."] },
  { name: "arrows", program: "node", args: [join(root, ".ci/arrows.mjs")] },
  {
    name: "tests",
    program: "vitest",
    args: ["run", "--reporter=dot", "--reporter=json", `--outputFile.json=${unitResults}`],
    results: unitResults,
  },
  {
    name: "browser",
    program: "vitest",
    args: [
      "run",
      `--config=${join(root, "tests/browser/vitest.config.mts")}`,
      "--reporter=dot",
      "--reporter=json",
      `--outputFile.json=${browserResults}`,
    ],
    results: browserResults,
  },
  {
    name: "bench",
    program: "vitest",
    args: [
      "run",
      `--config=${join(root, "tests/bench/vitest.config.mts")}`,
      "--reporter=dot",
      "--reporter=json",
      `--outputFile.json=${benchResults}`,
    ],
    results: benchResults,
  },
  { name: "editor", program: "node", args: [join(root, ".ci/editor-tests.mjs")], results: editorResults },
];

mkdirSync(out, { recursive: true });
const failedSteps = [];
let passed = 0;
let failed = 0;
for (const { name, program, args, results } of steps) {
  console.log(`\n== ${name}`);
  if (results) rmSync(results, { force: true });
  const begun = Date.now();
  const status = run(program, args);
  const counted = results && countIn(results);
  passed += counted ? counted.passed : status === 0 ? 1 : 0;
  failed += counted ? counted.failed : status === 0 ? 0 : 1;
  // A run that ended badly without a failed test (a crash after the last one) must not pass either.
  if (status !== 0 && counted && counted.failed === 0) failed += 1;
  if (status !== 0 || (counted && counted.failed > 0)) failedSteps.push(name);
  console.log(`${name}: ${status === 0 ? "passed" : "failed"} in ${((Date.now() - begun) / 1000).toFixed(1)} s`);
}

if (failedSteps.length > 0) console.log(`\nFailed: ${failedSteps.join(", ")}`);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;

/** Counts in the shape that vitest's JSON reporter writes; undefined where there is no such file. */
function countIn(file) {
  if (!existsSync(file)) return undefined;
  const { numPassedTests = 0, numFailedTests = 0, numFailedTestSuites = 0, success } = JSON.parse(readFileSync(file, "utf8"));
  // A test file that cannot even be loaded has no failed test of its own.
  return { passed: numPassedTests, failed: numFailedTests || (success === false ? Math.max(1, numFailedTestSuites) : 0) };
}
