/** A site as it was at an earlier git revision. */
import { loadSite } from "../../shared/site/load.ts";
import type { Site } from "../../shared/site/site.ts";
import { fileIdOf, realFile } from "../files.ts";
import { filesAt } from "../git.ts";
import { ToolProblem } from "../tool-problem.ts";

/** @throws ToolProblem where the file was not there then, or git cannot say */
export function siteAt(path: string, revision: string, cwd: string): { readonly site: Site; readonly problems: readonly [] } {
  const root = realFile(fileIdOf(path, cwd));
  const open = filesAt(root, revision);
  if (!open(root)) throw new ToolProblem(`${path} was not there at ${revision}`);
  return { site: loadSite(root, open), problems: [] };
}
