/** A site as it was at an earlier git revision. */
import { loadSite } from "../../shared/site/load.ts";
import type { Site } from "../../shared/site/site.ts";
import type { ReadProblem } from "../files.ts";
import { fileIdOf } from "../files.ts";
import { realPath, revisionAt } from "../revision.ts";
import { ToolProblem } from "../tool-problem.ts";

/** @throws ToolProblem where the file was not there then, or git cannot say */
export function siteAt(path: string, revision: string, cwd: string): { readonly site: Site; readonly problems: readonly ReadProblem[] } {
  const root = realPath(fileIdOf(path, cwd));
  const { shelf, has } = revisionAt(root, revision);
  if (!has(root)) throw new ToolProblem(`${path} was not there at ${revision}`);
  return { site: loadSite(root, shelf.open), problems: shelf.problems };
}
