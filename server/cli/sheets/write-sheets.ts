/** Checks a site, plans each keypad, and writes the sheets of those that nothing holds back. */

import { basename, join } from "node:path";
import { findingsOf } from "../../../shared/checks/run.ts";
import type { FileId, Finding } from "../../../shared/finding.ts";
import { holdsBack } from "../../../shared/plan/held-back.ts";
import type { Plan } from "../../../shared/plan/plan.ts";
import type { Sheet } from "../../../shared/sheet/shape.ts";
import { sheetOf } from "../../../shared/sheet/sheet.ts";
import { labelled } from "../../../shared/sheet/visible.ts";
import type { Keypad, Site } from "../../../shared/site/site.ts";
import { fileIdOf, isFolder, realFile } from "../../files.ts";
import { sheetKey } from "../../sheet-key.ts";
import { ToolProblem } from "../../tool-problem.ts";
import { writeFileWhole } from "../../write-file.ts";
import { sayUnreadable } from "../asked.ts";
import type { ExitStatus, OptionValues } from "../command.ts";
import { listOf, textOf } from "../command.ts";
import { reportOfSite } from "../findings/check-files.ts";
import { text } from "../findings/formats/text.ts";
import { meant } from "../nearest.ts";
import type { Render } from "../papers/render.ts";
import { renderSheetsAs, withExtension } from "../papers/render.ts";
import { shownPath } from "../paths.ts";
import type { Surroundings } from "../surroundings.ts";
import { commitOf } from "./commit.ts";
import { startingFrom } from "./starting.ts";

/** @throws ToolProblem where the site or the place to write cannot be used; nothing is written then */
export async function writeSheets(path: string, options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const today = textOf(options, "today") ?? around.today();
  const from = textOf(options, "from");
  const clearAll = options.clearAll === true;
  const { site, problems, renamed, planOf } = startingFrom(path, from, today, around.cwd);
  const output = textOf(options, "output");
  if (output !== undefined && isOneOf(fileIdOf(output, around.cwd), site))
    throw new ToolProblem(`${output} is a file of the site; a sheet is not written over it`);
  // Standard output then belongs to the sheets alone.
  const say = output === "-" ? around.err : around.out;
  const findings = findingsOf(site, { today });
  const keypads = keypadsAsked(site, listOf(options, "keypad"), path, findings);

  const held = new Set<Finding>();
  const notes: string[] = [];
  const sheets: Sheet[] = [];
  const files = site.files.map(source => source.file);
  const commit = commitOf(files);
  const numberKey = sheetKey(files);
  for (const keypad of keypads) {
    const errors = findings.filter(finding => holdsBack(finding, keypad));
    for (const error of errors) held.add(error);
    if (errors.length > 0) {
      notes.push(`${named(keypad)}: no sheet, ${errors.length === 1 ? "an error holds" : `${errors.length} errors hold`} it back`);
      continue;
    }
    const plan = planOf(keypad, { clearAll });
    if ("cannot" in plan) notes.push(`${named(keypad)}: no sheet: ${plan.cannot}${plan.instead ? `; ${plan.instead}` : ""}`);
    else sheets.push(sheetFor(site, keypad, plan));
  }

  function sheetFor(ofSite: Site, keypad: Keypad, plan: Plan): Sheet {
    const hideCodes = options.hideCodes === true;
    const showInstaller = options.showInstaller === true;
    return sheetOf(ofSite, keypad, plan, { hideCodes, showInstaller, today, ...(commit && { commit }), ...(numberKey && { numberKey }) });
  }

  if (held.size > 0) {
    const report = reportOfSite(site, [...held], around);
    const written = await text.render({ ...report, shown: file => report.shown(renamed(file)), colour: around.colour && output !== "-" });
    say(`${written}\n`);
  }
  const unreadable = sayUnreadable(problems, around);
  if (sheets.length > 0) {
    const render = renderSheetsAs(String(options.format));
    const { lines, lacks } = await deliver(sheets, render, output, fileIdOf(path, around.cwd), around);
    for (const line of lines) say(`${line}\n`);
    notes.push(...lacks);
  }
  for (const note of notes) say(`${note}\n`);
  if (unreadable) return 2;
  return notes.length > 0 ? 1 : 0;
}

/** Whether the path, links followed, is a file that the site was read from. */
export function isOneOf(path: FileId, site: Site): boolean {
  const real = realFile(path);
  return site.files.some(({ file }) => realFile(file) === real);
}

/** @throws ToolProblem for an id that the site does not have, and for a site without keypads */
export function keypadsAsked(site: Site, ids: readonly string[], path: string, findings: readonly Finding[]): readonly Keypad[] {
  if (site.keypads.size === 0) {
    const syntax = findings.some(finding => finding.severity === "error") ? `; mullion check ${path} says what is wrong with it` : "";
    throw new ToolProblem(`${path} describes no keypad${syntax}`);
  }
  if (ids.length === 0) return [...site.keypads.values()];
  return [...new Set(ids)].map(id => {
    const keypad = site.keypads.get(id);
    if (!keypad)
      throw new ToolProblem(`the site has no keypad ${id}${meant(id, site.keypads.keys())}; it has ${[...site.keypads.keys()].join(", ")}`);
    return keypad;
  });
}

/** Writes the sheets where they were asked for. Returns a line for each file written, and what could not be written as asked. */
async function deliver(
  sheets: readonly Sheet[],
  render: Render<Sheet>,
  output: string | undefined,
  site: FileId,
  around: Surroundings,
): Promise<{ readonly lines: readonly string[]; readonly lacks: readonly string[] }> {
  if (output === "-") {
    const { content, lacks } = await render(sheets);
    around.out(content);
    return { lines: [], lacks: lacks ?? [] };
  }
  const target = output === undefined ? undefined : fileIdOf(output, around.cwd);
  const isOneFile = target !== undefined && !isFolder(target) && !/[/\\]$/.test(output ?? "");
  if (isOneFile) {
    const { content, extension, lacks } = await render(sheets);
    const path = lacks ? withExtension(target, extension) : target;
    const shown = lacks ? shownPath(path, around.cwd) : (output ?? target);
    writeFileWhole(path, content, shown);
    return { lines: [`${sheets.map(totals).join("\n")}\nwritten to ${shown}`], lacks: lacks ?? [] };
  }
  const folder = target ?? site.slice(0, site.lastIndexOf("/"));
  const beginning = basename(site).replace(/\.mullion$/, "");
  // All are rendered before the first is written: a fault leaves no half of a visit.
  const files = await Promise.all(
    sheets.map(async each => {
      const { content, extension, lacks } = await render([each]);
      return { each, path: join(folder, `${beginning}-${each.keypad}-sheet.${extension}`), content, lacks: lacks ?? [] };
    }),
  );
  const lines = files.map(({ each, path, content }) => {
    const shown = shownPath(path, around.cwd);
    writeFileWhole(path, content, shown);
    return `${totals(each)}  ${shown}`;
  });
  return { lines, lacks: files.flatMap(({ each, lacks }) => lacks.map(lack => `${each.keypad} "${labelled(each.label)}": ${lack}`)) };
}

function totals({ keypad, label, counts, minutes }: Sheet): string {
  if (counts.entries === 0) return `${keypad} "${labelled(label)}": nothing to type`;
  return `${keypad} "${labelled(label)}": ${counts.entries} ${counts.entries === 1 ? "entry" : "entries"}, ${counts.keys} keys, about ${minutes} min`;
}

function named({ id, label }: Keypad): string {
  return `${id} "${labelled(label)}"`;
}
