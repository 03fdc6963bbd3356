/** Everything that waits to be typed at the keypads of the sites under some paths. */

import { findingsOf } from "../../shared/checks/run.ts";
import type { SourceFile } from "../../shared/finding.ts";
import { jsonText } from "../../shared/json-text.ts";
import { planFor } from "../../shared/plan/start.ts";
import type { Waiting } from "../../shared/plan/waiting.ts";
import { waitingAt } from "../../shared/plan/waiting.ts";
import { stillWaiting, waitingCells, waitingColumns, waitingTotal } from "../../shared/plan/waiting-table.ts";
import { byteOrderMark, quotedCell } from "../../shared/sheet/csv-cell.ts";
import { drawnTable } from "../../shared/sheet/drawn-table.ts";
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

function asText(rows: readonly Row[]): string {
  const waiting = stillWaiting(rows);
  const table = waiting.length === 0 ? "" : `${drawnTable([waitingColumns, ...waiting.map(waitingCells)]).join("\n")}\n\n`;
  return `${table}${waitingTotal(rows)}\n`;
}

function asCsv(rows: readonly Row[]): string {
  const lines = [waitingColumns as readonly string[], ...rows.map(waitingCells)];
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
