/** `mullion import`: a table of holders, codes, tags and places taken into a site's text. */
import type { Command } from "../command.ts";

export const importTable: Command = {
  name: "import",
  about: "Take a spreadsheet (CSV) into a site's text, and report row by row what was taken, guessed and refused. No codes are shown.",
  arguments: [{ name: "<table>", about: "a CSV file with a row of headings: holder, code, tag, keypad, relay, slot" }],
  options: [
    {
      flags: "--map <column>",
      about: "columns by their headings or numbers: --map holder=Name,code=3; may stand more than once",
      repeated: true,
    },
    {
      flags: "-o, --output <path>",
      about:
        "the site's file, filled or made new (default: the table's name with .mullion); its keypads have to be in it for places to be taken",
    },
    { flags: "--dry-run", about: "report and change nothing" },
  ],
  sealed: "needs",
  examples: [{ line: "import --help", shows: "the columns that a table may have" }],
  run: async ([table = ""], options, around) => {
    const { importInto } = await import("../import-into.ts");
    return importInto(table, options, around);
  },
};
