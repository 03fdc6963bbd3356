/** The holder that a command was asked about. */
import type { Holder, Site } from "../../shared/site/site.ts";
import { ToolProblem } from "../tool-problem.ts";
import { meant } from "./nearest.ts";

/** @throws ToolProblem where none was named, or the site has no such holder */
export function holderNamed(site: Site, id: string | undefined): Holder {
  if (id === undefined) throw new ToolProblem("name the holder: --holder ID");
  const holder = site.holders.get(id);
  if (!holder) throw new ToolProblem(`the site has no holder ${id}${meant(id, site.holders.keys())}`);
  return holder;
}
