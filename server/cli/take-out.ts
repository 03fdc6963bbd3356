/** Takes a holder out of the text of a site, and says what is to be typed at each keypad after that. */

import { parse } from "../../grammar/parse.ts";
import { findingsOf } from "../../shared/checks/run.ts";
import { edited } from "../../shared/edited.ts";
import type { FileId, SourceFile } from "../../shared/finding.ts";
import { leave } from "../../shared/leaving/leave.ts";
import { must } from "../../shared/must.ts";
import { holdsBack } from "../../shared/plan/held-back.ts";
import { planFor } from "../../shared/plan/start.ts";
import { namesOf } from "../../shared/sheet/names.ts";
import { sentence } from "../../shared/sheet/sentence.ts";
import { labelled } from "../../shared/sheet/visible.ts";
import { loadSite } from "../../shared/site/load.ts";
import type { Keypad, Site } from "../../shared/site/site.ts";
import { writeText } from "../seal/write-sealed.ts";
import { sayUnreadable } from "./asked.ts";
import type { ExitStatus } from "./command.ts";
import { holderNamed } from "./holder-named.ts";
import { shownPath } from "./paths.ts";
import { openSite } from "./sheets/open-site.ts";
import type { Surroundings } from "./surroundings.ts";

/** @throws ToolProblem where the holder is not there or a file cannot be written */
export async function takeOut(path: string, id: string | undefined, dryRun: boolean, around: Surroundings): Promise<ExitStatus> {
  const { site, problems } = openSite(path, undefined, around.cwd);
  const holder = holderNamed(site, id);
  const { edits, keypads, installerOf } = leave(site, holder);
  const after = new Map<FileId, SourceFile>();
  for (const file of new Set(edits.map(edit => edit.file))) {
    const source = site.files.find(one => one.file === file);
    must(source, "a keypad's file is one of its site's");
    const text = edited(
      source.text,
      edits.filter(edit => edit.file === file),
    );
    after.set(file, { ...source, text, ...parse(text) });
  }
  const files = site.files.map(({ file }) => file);
  for (const { file, text } of after.values()) if (!dryRun) await writeText(file, text, files, around.cwd);

  const left = loadSite(site.root, file => after.get(file) ?? site.files.find(one => one.file === file));
  if (keypads.length === 0) around.out(`${labelled(holder.label)} is on no keypad of the text; nothing changes\n`);
  const findings = keypads.length === 0 ? [] : findingsOf(left, { today: around.today() });
  for (const { id } of keypads) {
    const keypad = left.keypads.get(id);
    must(keypad, "a keypad that loses entries is still there");
    around.out(`${waiting(left, keypad)}\n`);
    for (const finding of findings.filter(one => holdsBack(one, keypad)))
      around.out(`  no sheet before this is settled: ${finding.message} (mullion explain ${finding.code})\n`);
  }
  for (const keypad of installerOf) {
    around.out(`${labelled(keypad.label)}: the installer code is ${labelled(holder.label)}'s; give it another one, and type that too\n`);
  }
  if (keypads.length > 0) {
    around.out(
      `${dryRun ? "nothing was written" : `written to ${[...after.keys()].map(file => shownPath(file, around.cwd)).join(", ")}`}; the lines of ${labelled(holder.label)} stay until it has been typed\n`,
    );
  }
  return sayUnreadable(problems, around) ? 2 : 0;
}

/** `Lane gate: 2 entries to type` and a line for each. A keypad without a record is taken to be new: nothing of the holder is in it. */
function waiting(site: Site, keypad: Keypad): string {
  const label = labelled(keypad.label);
  if (!keypad.fitted) return `${label}: taken out of the text; there is no fitted record, so it is not known to be at the keypad`;
  const plan = planFor(site, keypad);
  if ("cannot" in plan) return `${label}: ${plan.cannot}${plan.instead ? `; ${plan.instead}` : ""}`;
  const names = namesOf(site, keypad, plan.model, plan.before, plan.target);
  const lines = plan.sessions.flatMap(session =>
    session.entries.map(entry => `  ${entry.n}. ${sentence(entry.operation, names, plan.model)}`),
  );
  const count = plan.counts.entries;
  return [`${label}: ${count === 1 ? "1 entry" : `${count} entries`} to type`, ...lines].join("\n");
}
