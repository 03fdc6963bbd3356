import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/editor/**", "tests/browser/**", "tests/bench/**", "node_modules/**", "out/**"],
    // The tests of the command line run what is built; building it takes less time than wondering whether it is stale.
    globalSetup: ["tests/support/build.ts", "tests/support/chance.ts"],
    setupFiles: ["tests/support/chance.ts"],
    testTimeout: 30_000,
  },
});
