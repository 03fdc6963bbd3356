/** Reads a table and takes it into a site's file. */
import { parse as parseCsv } from "csv-parse/sync";
import { parse } from "../../grammar/parse.ts";
import type { FileId, SourceFile } from "../../shared/finding.ts";
import { columnsOf, unreadColumns } from "../../shared/import/columns.ts";
import { readRow, usualLength } from "../../shared/import/read-row.ts";
import type { RowReport } from "../../shared/import/take-in.ts";
import { takeIn } from "../../shared/import/take-in.ts";
import { visible } from "../../shared/sheet/visible.ts";
import { loadSite } from "../../shared/site/load.ts";
import { isFittedRecord } from "../../shared/site/paths.ts";
import { fileIdOf, isThere, readText, shelf } from "../files.ts";
import { writeText } from "../seal/write-sealed.ts";
import { ToolProblem } from "../tool-problem.ts";
import { sayUnreadable } from "./asked.ts";
import type { ExitStatus, OptionValues } from "./command.ts";
import { listOf, textOf } from "./command.ts";
import { shownPath } from "./paths.ts";
import type { Surroundings } from "./surroundings.ts";

/** @throws ToolProblem where the table or the site's file cannot be read, or a column is not to be found; nothing is written then */
export async function importInto(table: string, options: OptionValues, around: Surroundings): Promise<ExitStatus> {
  const output = textOf(options, "output") ?? besideTable(table);
  const [header = [], ...rows] = recordsOf(table, around.cwd);
  const columns = columnsOf(header, listOf(options, "map"));
  if ("wrong" in columns) throw new ToolProblem(`${table}: ${columns.wrong}`);
  const usual = columns.code === undefined ? undefined : usualLength(rows.map(cells => cells[columns.code ?? 0] ?? ""));

  const files = shelf();
  const root = fileIdOf(output, around.cwd);
  const isNew = !isThere(root);
  const empty: SourceFile = { file: root, text: "", ...parse("") };
  const open = (file: FileId) => (isNew && file === root ? empty : files.open(file));
  const source = open(root);
  if (!source) throw new ToolProblem(`cannot read ${output}: ${files.problems.at(-1)?.reason ?? "it went away"}`);
  if (source.problems.length > 0) throw new ToolProblem(`${output} cannot be read as it is; mullion check ${output} says why`);

  const filled = rows.flatMap((cells, index) =>
    cells.every(cell => cell.trim() === "") ? [] : [readRow(cells, index + 2, columns, usual)],
  );
  const { files: changed, report } = takeIn(root, sealedPeople(root, open) ?? root, open, filled);
  const dry = options.dryRun === true;
  for (const [file, text] of changed) if (!dry) await writeText(file, text, [...changed.keys()], around.cwd);
  for (const { row, verdict, words } of report) around.out(`row ${row}: ${verdict}${words === "" ? "" : `: ${visible(words)}`}\n`);
  const unread = unreadColumns(header, columns);
  if (unread.length > 0) around.out(`not used: ${visible(unread.join(", "))}\n`);
  const count = (verdict: RowReport["verdict"]) => report.filter(each => each.verdict === verdict).length;
  const inPart = count("taken in part");
  around.out(
    `${report.length} ${report.length === 1 ? "row" : "rows"}: ${count("taken")} taken, ${inPart === 0 ? "" : `${inPart} in part, `}${count("guessed")} guessed, ${count("there already")} there already, ${count("refused")} refused; ${
      changed.size === 0
        ? "nothing changes"
        : dry
          ? "nothing was written"
          : `written to ${[...changed.keys()].map(file => shownPath(file, around.cwd)).join(", ")}`
    }\n`,
  );
  if (sayUnreadable(files.problems, around)) return 2;
  return count("refused") + inPart > 0 ? 1 : 0;
}

/** `register.csv` is taken into `register.mullion`. */
function besideTable(table: string): string {
  return `${table.replace(/\.[^./\\]+$/, "")}.mullion`;
}

/** Where a site seals its codes, new ones go to them. */
function sealedPeople(root: FileId, open: (file: FileId) => SourceFile | undefined): FileId | undefined {
  const { files } = loadSite(root, open);
  return files.find(({ sealed }) => sealed && !isFittedRecord(sealed.file))?.file;
}

/** Cells by row, the separator found by the headings. @throws ToolProblem where it is no table */
function recordsOf(table: string, cwd: string): readonly (readonly string[])[] {
  const read = readText(fileIdOf(table, cwd));
  if ("absent" in read) throw new ToolProblem(`no such file: ${table}`);
  if ("unreadable" in read) throw new ToolProblem(`cannot read ${table}: ${read.unreadable}`);
  if ("sealed" in read) throw new ToolProblem(`${table} is sealed; a table is read as it is`);
  const [headings = ""] = read.text.split(/\r\n|[\r\n]/, 1);
  const delimiter = [",", ";", "\t", "|"].sort((one, other) => headings.split(other).length - headings.split(one).length)[0] ?? ",";
  try {
    return parseCsv(read.text, { bom: true, delimiter, relaxColumnCount: true, skipEmptyLines: false, relaxQuotes: true });
  } catch {
    // The library's own message quotes the row, and with it a code.
    throw new ToolProblem(`${table} is no table of comma or semicolon separated values`);
  }
}
