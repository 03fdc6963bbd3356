import { join } from "node:path";
import { defineConfig } from "vitest/config";

/** The short bench runs alone, after all other tests: what else runs beside it would be measured too. */
export default defineConfig({
  root: join(import.meta.dirname, "../.."),
  test: {
    include: ["tests/bench/*.test.ts"],
    globalSetup: ["tests/support/build.ts"],
  },
});
