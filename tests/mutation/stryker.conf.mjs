/** Faults planted one at a time in files of `shared/`: one that no test notices is a test that is missing. */
export default {
  testRunner: "vitest",
  vitest: { configFile: "tests/mutation/vitest.config.mts" },
  // Words are compared where they matter; a changed letter in a sentence is not a fault of the plan.
  mutator: { excludedMutations: ["StringLiteral"] },
  ignorePatterns: ["out", "samples/pictures", "tests/browser", "tests/bench", "tests/editor", "node_modules", ".git"],
  tempDirName: "out/mutation/work",
  reporters: ["clear-text", "json"],
  clearTextReporter: { logTests: false, allowColor: false, reportTests: false },
  jsonReporter: { fileName: "out/mutation/report.json" },
  concurrency: 1,
  timeoutMS: 20_000,
  coverageAnalysis: "perTest",
  // TypeScript 7 has no interface for programs, with which its settings would be rewritten; nothing here is compiled.
  tsconfigFile: "none",
};
