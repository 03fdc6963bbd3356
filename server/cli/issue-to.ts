/** Draws a code for a holder with the system's secure random source, prints it, and writes it where that was asked for. */
import { randomBytes } from "node:crypto";
import { issueCode } from "../../shared/codes/issue.ts";
import { edited } from "../../shared/edited.ts";
import { must } from "../../shared/must.ts";
import { writeText } from "../seal/write-sealed.ts";
import { ToolProblem } from "../tool-problem.ts";
import { sayUnreadable } from "./asked.ts";
import type { ExitStatus } from "./command.ts";
import { holderNamed } from "./holder-named.ts";
import { shownPath } from "./paths.ts";
import { openSite } from "./sheets/open-site.ts";
import type { Surroundings } from "./surroundings.ts";

/** @throws ToolProblem where the holder is not there, no code is left, or the file cannot be written */
export async function issueTo(
  path: string,
  id: string | undefined,
  name: string | undefined,
  write: boolean,
  around: Surroundings,
): Promise<ExitStatus> {
  const { site, problems } = openSite(path, undefined, around.cwd);
  const holder = holderNamed(site, id);
  const issued = issueCode(site, holder, name, count => randomBytes(count));
  if ("not" in issued) throw new ToolProblem(issued.not);
  if (write) {
    const source = site.files.find(({ file }) => file === issued.edit.file);
    must(source, "a holder's file is one of its site's");
    const shown = shownPath(source.file, around.cwd);
    const files = site.files.map(({ file }) => file);
    await writeText(source.file, edited(source.text, [issued.edit]), files, around.cwd);
    around.err(`written to ${shown}; it opens nothing before it has been typed (mullion sheet)\n`);
  }
  around.out(`${issued.code}\n`);
  return sayUnreadable(problems, around) ? 2 : 0;
}
