/** Results of a suite in a file beside it, for the runner that started it. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Result } from "./suite.ts";

export function writeResults(results: readonly Result[] | "no folders"): void {
  writeFileSync(join(__dirname, "results.json"), JSON.stringify(results));
}
