/** Builds the command line before the tests, so that they never run an old one. */
import { execFileSync } from "node:child_process";
import { rmSync } from "node:fs";
import { join } from "node:path";

const root = join(import.meta.dirname, "../..");

export function setup(): void {
  try {
    execFileSync(process.execPath, [join(root, ".ci/build.mjs"), "launcher", "cli", "pdf", "age", "server"], {
      stdio: ["ignore", "ignore", "pipe"],
      encoding: "utf8",
    });
  } catch (error) {
    // The other tests go on; those of the command line fail for want of it.
    rmSync(join(root, "out/mullion.js"), { force: true });
    const said = (error as { stderr?: string }).stderr ?? String(error);
    console.error(`The command line could not be built: ${/ERROR: .*/.exec(said)?.[0] ?? said}`);
  }
}
