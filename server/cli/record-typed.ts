/** Takes into a site's fitted record what was typed at its keypads, all of it or nothing. */

import { parse } from "../../grammar/parse.ts";
import { findingsOf } from "../../shared/checks/run.ts";
import { edited } from "../../shared/edited.ts";
import type { FileId, SourceFile } from "../../shared/finding.ts";
import type { CannotPlan, Plan } from "../../shared/plan/plan.ts";
import { recordTyped } from "../../shared/plan/record-typed.ts";
import { planFor } from "../../shared/plan/start.ts";
import { readNumber } from "../../shared/sheet/number.ts";
import { labelled } from "../../shared/sheet/visible.ts";
import { loadSite } from "../../shared/site/load.ts";
import { fittedCompanion } from "../../shared/site/paths.ts";
import type { Day } from "../../shared/site/site.ts";
import { fileIdOf, isThere } from "../files.ts";
import { whileLocked } from "../lock-file.ts";
import { writeText } from "../seal/write-sealed.ts";
import { numbersOf } from "../sheet-key.ts";
import { ToolProblem } from "../tool-problem.ts";
import { sayUnreadable } from "./asked.ts";
import type { ExitStatus, OptionValues } from "./command.ts";
import { listOf, textOf } from "./command.ts";
import { meant } from "./nearest.ts";
import { shownPath } from "./paths.ts";
import { openSite } from "./sheets/open-site.ts";
import { startingFrom } from "./sheets/starting.ts";
import type { Surroundings } from "./surroundings.ts";

/** The plans that a keypad's sheet may have been made of: the number of the sheet says which of them it was. */
function plansFrom(path: string, options: OptionValues, today: Day, around: Surroundings): (id: string) => readonly (Plan | CannotPlan)[] {
  const from = textOf(options, "from");
  if (options.replaced === true && from !== undefined) throw new ToolProblem("either --replaced, which is --from factory, or --from");
  const asked = options.replaced === true ? "factory" : from;
  // A sheet of everything, emptied by an entry or by hand, is not mistaken for another: its number is its own.
  const starts = asked === undefined ? [undefined, "reset"] : [asked];
  const starting = starts.map(start => startingFrom(path, start, today, around.cwd));
  return id => {
    const plans = starting.flatMap(({ site, planOf }) => {
      const keypad = site.keypads.get(id);
      return keypad ? [planOf(keypad), planOf(keypad, { clearAll: true })] : [];
    });
    const [first] = plans;
    // Why there is none is said of the plan that was asked for.
    return first && "cannot" in first ? [...plans.filter(plan => !("cannot" in plan)), first] : plans.filter(plan => !("cannot" in plan));
  };
}

/**
 * The record's file is read, changed and written while it is locked, so that two runs lose nothing of each other.
 *
 * @throws ToolProblem where the words are off, or nothing may be recorded; the record is then as it was
 */
export async function recordTypedAt(path: string, options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const asked = askedFor(options);
  const site = fileIdOf(path, around.cwd);
  if (!isThere(site)) throw new ToolProblem(`no such file: ${path}`);
  const record = fittedCompanion(site);
  if (record === undefined) throw new ToolProblem(`${path} is a fitted record; name the site's file`);
  return whileLocked(record, shownPath(record, around.cwd), () => write(path, asked, options, around));
}

interface AskedFor {
  readonly keypads: readonly { readonly id: string; readonly sheet: string }[];
  readonly done: string;
  readonly doubt: string;
}

function askedFor(options: OptionValues): AskedFor {
  const ids = listOf(options, "keypad");
  const sheets = listOf(options, "sheet");
  const done = textOf(options, "done");
  const doubt = textOf(options, "doubt") ?? "";
  if (ids.length === 0) throw new ToolProblem("name the keypad: --keypad ID");
  if (sheets.length !== ids.length) throw new ToolProblem("name the sheet that was typed from, one for each keypad: --sheet NUMBER");
  if (new Set(ids).size !== ids.length) throw new ToolProblem("a keypad is named twice");
  if (options.all === true && done !== undefined) throw new ToolProblem("either --all or --done, not both");
  if (options.all !== true && done === undefined && doubt === "")
    throw new ToolProblem("say what was taken: --all, or --done 1-6,8, or --doubt 9");
  if (ids.length > 1 && options.all !== true)
    throw new ToolProblem("entries are numbered by keypad: name one keypad with --done or --doubt, or several with --all");
  return {
    keypads: ids.map((id, index) => ({ id, sheet: readNumber(sheets[index] ?? "") })),
    done: options.all === true ? "all" : (done ?? ""),
    doubt,
  };
}

async function write(path: string, { keypads, done, doubt }: AskedFor, options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const today = around.today();
  const date = textOf(options, "date") ?? today;
  const opened = openSite(path, undefined, around.cwd);
  const before = opened.site;
  const changed = new Map<FileId, SourceFile>();
  const read = (file: FileId) => changed.get(file) ?? before.files.find(one => one.file === file);
  const said: string[] = [];
  const gaveWay: string[] = [];
  const files = before.files.map(({ file }) => file);
  const plansOf = plansFrom(path, options, today, around);
  for (const { id, sheet } of keypads) {
    const site = changed.size === 0 ? before : loadSite(before.root, read);
    const keypad = site.keypads.get(id);
    if (!keypad)
      throw new ToolProblem(`the site has no keypad ${id}${meant(id, site.keypads.keys())}; it has ${[...site.keypads.keys()].join(", ")}`);
    const plan = plansOf(id).find(one => "cannot" in one || numbersOf(id, one, files).includes(sheet));
    if (!plan) {
      throw new ToolProblem(
        `${id}: text and record now give another sheet than ${sheet}; nothing is written. Put back the text that the sheet was made from, record, and go on from there; a sheet that was made with --from is recorded with the same --from`,
      );
    }
    const typed = recordTyped(site, findingsOf(site, { today }), keypad, plan, { done, doubt, date }, read);
    if ("refused" in typed) throw new ToolProblem(`${id}: ${typed.refused}; nothing is written`);
    const text = edited(read(typed.file)?.text ?? "", [typed]);
    changed.set(typed.file, { ...read(typed.file), file: typed.file, text, ...parse(text) });
    const gone = options.from === undefined && options.replaced !== true ? undefined : keypad.fitted?.date;
    if (gone !== undefined)
      gaveWay.push(
        `mullion: ${id}: the record of ${gone} gave way to what the sheet starts from; what was recorded since is named again with these entries, or is in it no more\n`,
      );
    said.push(`${id} "${labelled(keypad.label)}": ${typed.entries} ${typed.entries === 1 ? "entry" : "entries"} recorded`);
  }
  for (const { file, text } of changed.values()) await writeText(file, text, files, around.cwd);

  const after = loadSite(before.root, read);
  for (const [index, { id }] of keypads.entries()) {
    const keypad = after.keypads.get(id);
    const left = keypad && planFor(after, keypad);
    const rest =
      !left || "cannot" in left ? "" : left.counts.entries === 0 ? ", nothing is left to type" : `, ${left.counts.entries} left to type`;
    around.out(`${said[index]}${rest}\n`);
  }
  for (const words of gaveWay) around.err(words);
  for (const file of changed.keys()) around.out(`written to ${shownPath(file, around.cwd)}\n`);
  return sayUnreadable(opened.problems, around) ? 2 : 0;
}
