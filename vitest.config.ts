import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/editor/**", "tests/browser/**", "node_modules/**", "out/**"],
    testTimeout: 30_000,
  },
});
