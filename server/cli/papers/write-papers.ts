/** Writes the papers of one kind beside the site, or where they were asked for. */

import { basename, join } from "node:path";
import { findingsOf } from "../../../shared/checks/run.ts";
import type { Paper, PaperKind } from "../../../shared/papers/paper.ts";
import { holdsBack } from "../../../shared/plan/held-back.ts";
import { labelled } from "../../../shared/sheet/visible.ts";
import { fileIdOf, isFolder } from "../../files.ts";
import { ToolProblem } from "../../tool-problem.ts";
import { writeFileWhole } from "../../write-file.ts";
import { sayUnreadable } from "../asked.ts";
import type { ExitStatus, OptionValues } from "../command.ts";
import { listOf, textOf } from "../command.ts";
import { meant } from "../nearest.ts";
import { shownPath } from "../paths.ts";
import { openSite } from "../sheets/open-site.ts";
import { isOneOf, keypadsAsked } from "../sheets/write-sheets.ts";
import type { Surroundings } from "../surroundings.ts";
import { renderPapersAs, withExtension } from "./render.ts";

/** @throws ToolProblem where the site or the place to write cannot be used; nothing is written then */
export async function writePapers(kind: PaperKind, path: string, options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const today = textOf(options, "today") ?? around.today();
  const from = textOf(options, "from");
  const { site, problems } = openSite(path, undefined, around.cwd);
  const earlier = from === undefined ? undefined : openSite(path, from, around.cwd).site;
  const findings = findingsOf(site, { today });
  const keypads = keypadsAsked(site, listOf(options, "keypad"), path, findings);
  const holders = listOf(options, "holder");
  for (const id of holders)
    if (!site.holders.has(id)) throw new ToolProblem(`the site has no holder ${id}${meant(id, site.holders.keys())}`);

  const output = textOf(options, "output");
  if (output !== undefined && isOneOf(fileIdOf(output, around.cwd), site))
    throw new ToolProblem(`${output} is a file of the site; a paper is not written over it`);
  const say = output === "-" ? around.err : around.out;
  const notes: string[] = [];
  const whole = keypads.filter(keypad => {
    const errors = findings.filter(finding => holdsBack(finding, keypad)).length;
    if (errors > 0)
      notes.push(
        `${keypad.id} "${labelled(keypad.label)}": left out, ${errors === 1 ? "an error holds" : `${errors} errors hold`} it back; mullion check says which`,
      );
    return errors === 0;
  });
  const unreadable = sayUnreadable(problems, around);
  const papers =
    whole.length === 0
      ? []
      : kind.make(site, {
          today,
          hideCodes: options.hideCodes === true,
          keypads: whole,
          ...(holders.length === 0 ? {} : { holders }),
          ...(earlier && { earlier }),
        });
  if (papers.length === 0 && notes.length === 0) notes.push("nothing to write: nobody and nothing here has such a paper");
  else if (papers.length > 0) notes.push(...(await deliver(papers, path, String(options.format), output, say, around)));
  for (const note of notes) say(`${note}\n`);
  if (unreadable) return 2;
  return notes.length > 0 ? 1 : 0;
}

/** Returns what could not be written as it was asked for. */
async function deliver(
  papers: readonly Paper[],
  path: string,
  formatName: string,
  output: string | undefined,
  say: (line: string) => void,
  around: Surroundings,
): Promise<readonly string[]> {
  const render = renderPapersAs(formatName);
  const site = fileIdOf(path, around.cwd);
  const target = output === undefined || output === "-" ? undefined : fileIdOf(output, around.cwd);
  const isFolderAsked = target !== undefined && (isFolder(target) || /[/\\]$/.test(output ?? ""));
  const isOneFile = output === "-" || (target !== undefined && !isFolderAsked);
  const [first] = papers;
  if (isOneFile && papers.length > 1)
    throw new ToolProblem(`${papers.length} papers, and each is for somebody else: name a folder with -o, or the one that is wanted`);
  if (output === "-" && first) {
    const { content, lacks = [] } = await render([first]);
    around.out(content);
    return lacks;
  }
  const folder = target ?? site.slice(0, site.lastIndexOf("/"));
  const beginning = basename(site).replace(/\.mullion$/, "");
  const names = named(papers);
  // All are rendered before the first is written: a fault leaves no half of them.
  const files = await Promise.all(
    papers.map(async (paper, index) => {
      const { content, extension, lacks = [] } = await render([paper]);
      const own = isOneFile && target !== undefined ? target : join(folder, `${beginning}-${names[index]}.${extension}`);
      return { paper, path: lacks.length > 0 ? withExtension(own, extension) : own, content, lacks };
    }),
  );
  for (const { paper, path: own, content } of files) {
    const shown = shownPath(own, around.cwd);
    writeFileWhole(own, content, shown);
    say(`${paper.about === undefined ? paper.title : `${paper.title}, ${paper.about}`}  ${shown}\n`);
  }
  return files.flatMap(({ paper, lacks }) => lacks.map(lack => `${paper.about ?? paper.title}: ${lack}`));
}

/** Names of files that differ by more than capitals: not every file system tells those apart. */
function named(papers: readonly Paper[]): readonly string[] {
  const taken = new Set<string>();
  return papers.map(({ file }) => {
    let name = file;
    for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${file}-${n}`;
    taken.add(name.toLowerCase());
    return name;
  });
}
