/** The commit that a sheet's text stands in, as the sheet names it. */
import { execFileSync } from "node:child_process";
import { dirname } from "node:path";
import type { FileId } from "../../../shared/finding.ts";

/** Undefined outside a repository and without git; "… and changes since" where a file differs from the commit. */
export function commitOf(files: readonly FileId[]): string | undefined {
  const [root] = files;
  if (root === undefined) return undefined;
  try {
    const git = (...words: readonly string[]) =>
      execFileSync("git", ["-c", "core.fsmonitor=false", ...words], {
        cwd: dirname(root),
        encoding: "utf8",
        timeout: 5000,
        stdio: ["ignore", "pipe", "ignore"],
        env: { ...process.env, GIT_OPTIONAL_LOCKS: "0" },
      }).trim();
    const commit = git("rev-parse", "--verify", "--short=10", "HEAD");
    const changed = git("status", "--porcelain", "--untracked-files=all", "--ignored=matching", "--", ...files);
    return changed === "" ? commit : `${commit} and changes since`;
  } catch {
    return undefined;
  }
}
