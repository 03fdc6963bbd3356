import { defineConfig } from "vitest/config";

/** The folders of tests that a fault is shown to: `MULLION_TESTS=plan,keypad`. Tests that measure time would only measure the faults. */
const folders = process.env.MULLION_TESTS?.split(",") ?? ["*"];

export default defineConfig({
  test: {
    include: folders.map(folder => `tests/shared/${folder}/**/*.test.ts`),
    exclude: ["**/scale.test.ts", "**/pace.test.ts", "**/size.test.ts"],
    setupFiles: ["tests/support/chance.ts"],
    testTimeout: 30_000,
    isolate: false,
    fileParallelism: false,
  },
});
