import { defineConfig } from "vitest/config";

/** Tests in a real browser: `npx vitest run --config tests/browser/vitest.config.mts`. */
export default defineConfig({
  test: { root: import.meta.dirname, include: ["**/*.test.ts"], testTimeout: 30_000, fileParallelism: false },
});
