/** The commit that a sheet's text stands in, as the sheet names it. */
import { dirname } from "node:path";
import type { FileId } from "../../../shared/finding.ts";
import { saidByGit } from "../../git.ts";

/** Undefined outside a repository and without git; "… and changes since" where a file differs from the commit. */
export function commitOf(files: readonly FileId[]): string | undefined {
  const [root] = files;
  if (root === undefined) return undefined;
  const folder = dirname(root);
  const commit = saidByGit(folder, "rev-parse", "--verify", "--short=10", "HEAD");
  if (commit === undefined) return undefined;
  const changed = saidByGit(folder, "status", "--porcelain", "--untracked-files=all", "--ignored=matching", "--", ...files);
  return changed === undefined ? undefined : changed === "" ? commit : `${commit} and changes since`;
}
