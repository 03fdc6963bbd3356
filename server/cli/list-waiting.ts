/** Everything that waits to be typed at the keypads of the sites under some paths. */

import { findingsOf } from "../../shared/checks/run.ts";
import type { SourceFile } from "../../shared/finding.ts";
import { jsonText } from "../../shared/json-text.ts";
import { planFor } from "../../shared/plan/start.ts";
import type { Waiting } from "../../shared/plan/waiting.ts";
import { waitingAt } from "../../shared/plan/waiting.ts";
import { byteOrderMark, quotedCell } from "../../shared/sheet/csv-cell.ts";
import { drawnTable } from "../../shared/sheet/drawn-table.ts";
import { labelled } from "../../shared/sheet/visible.ts";
import { loadSite } from "../../shared/site/load.ts";
import { baseName } from "../../shared/site/paths.ts";
import { rootsOf } from "../../shared/site/roots.ts";
import type { Day, Keypad } from "../../shared/site/site.ts";
import { shelf } from "../files.ts";
import { filesAsked, sayUnreadable } from "./asked.ts";
import type { ExitStatus } from "./command.ts";
import { withCompanions } from "./findings/check-files.ts";
import { repositoryPaths } from "./paths.ts";
import type { Surroundings } from "./surroundings.ts";

interface Row extends Waiting {
  readonly file: string;
}

/** @throws ToolProblem where a path is not there */
export function listWaiting(paths: readonly string[], format: string, today: Day, around: Surroundings): ExitStatus {
  const asked = filesAsked(paths, around.cwd);
  const { open, problems } = shelf();
  const sources: SourceFile[] = withCompanions(asked.files).flatMap(file => open(file) ?? []);
  const pathOf = repositoryPaths(around.cwd);
  const rows = rootsOf(sources).flatMap((root): Row[] => {
    const site = loadSite(root, open);
    const planOf = (keypad: Keypad) => planFor(site, keypad);
    return waitingAt(site, site.label ?? baseName(root), findingsOf(site, { today }), planOf).map(row => ({ ...row, file: pathOf(root) }));
  });
  around.out(format === "json" ? asJson(rows) : format === "csv" ? asCsv(rows) : asText(rows));
  return sayUnreadable([...asked.problems, ...problems], around) ? 2 : 0;
}

const columns = ["site", "keypad", "record", "to type", "minutes", "bring"] as const;

function cellsOf({ site, keypad, fitted, entries, minutes, tags, why }: Row): readonly string[] {
  return [
    labelled(site),
    `${keypad.id} ${labelled(keypad.label)}`,
    fitted ?? (keypad.fitted ? "unknown" : "none"),
    entries === undefined ? `no sheet: ${why ?? ""}` : entries === 0 ? "nothing" : String(entries),
    entries ? String(minutes ?? "") : "",
    tags.map(tag => `tag ${labelled(tag)}`).join(", "),
  ];
}

function asText(rows: readonly Row[]): string {
  const waiting = rows.filter(({ entries }) => entries !== 0);
  const done = rows.length - waiting.length;
  if (waiting.length === 0) return `Nothing waits to be typed at ${done} ${done === 1 ? "keypad" : "keypads"}.\n`;
  const lines = [columns as readonly string[], ...waiting.map(cellsOf)];
  const entries = waiting.reduce((sum, row) => sum + (row.entries ?? 0), 0);
  const minutes = waiting.reduce((sum, row) => sum + (row.entries ? (row.minutes ?? 0) : 0), 0);
  const held = rows.filter(row => row.entries === undefined).length;
  const at = `${waiting.length - held} of ${rows.length} ${rows.length === 1 ? "keypad" : "keypads"}`;
  const total = `${entries} ${entries === 1 ? "entry" : "entries"} at ${at}, about ${minutes} min (keys only, a practised hand)`;
  return `${drawnTable(lines).join("\n")}\n\n${total}${held === 0 ? "" : `; ${held} ${held === 1 ? "has" : "have"} no sheet`}\n`;
}

function asCsv(rows: readonly Row[]): string {
  const lines = [columns as readonly string[], ...rows.map(cellsOf)];
  return `${byteOrderMark}${lines.map(line => line.map(quotedCell).join(",")).join("\r\n")}\r\n`;
}

function asJson(rows: readonly Row[]): string {
  const keypads = rows.map(({ file, site, keypad, fitted, entries, minutes, tags, why }) => ({
    file,
    site,
    keypad: keypad.id,
    label: keypad.label,
    ...(fitted === undefined ? {} : { fitted }),
    ...(entries === undefined ? { why } : { entries, minutes: entries === 0 ? 0 : minutes, bring: tags }),
  }));
  return jsonText({ keypads });
}
