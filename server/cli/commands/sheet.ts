/** `mullion sheet`: what to type now, one run sheet a keypad. */
import type { Command } from "../command.ts";

export const sheet: Command = {
  name: "sheet",
  about: "Write the run sheet of each keypad of a site: what to type now, and what must be seen.",
  arguments: [{ name: "<file>", about: "the site's file" }],
  options: [
    { flags: "--keypad <id>", about: "only this keypad; may stand more than once", repeated: true },
    {
      flags: "--from <start>",
      about:
        "what the keypad holds now: an earlier record, an earlier text of the site, factory or reset (default: the record beside the site)",
    },
    { flags: "--clear-all", about: "empty the whole keypad first and type everything; it shuts everyone out meanwhile" },
    {
      flags: "--format <format>",
      about: "how the sheet is written",
      choices: ["html", "pdf", "md", "csv", "json", "txt"],
      fallback: "html",
    },
    { flags: "-o, --output <path>", about: "a file, a folder, or - for standard output (default: NAME-KEYPAD-sheet.EXT beside the site)" },
    { flags: "--hide-codes", about: "dots in place of every code" },
    { flags: "--show-installer", about: "the installer code in digits" },
    { flags: "--today <day>", about: "the day that stands on the sheet", day: true },
  ],
  sealed: "names",
  examples: [
    {
      line: "sheet samples/tannery-wharf/tannery-wharf.mullion --keypad gate --format md -o -",
      shows: "the sheet of one keypad, on the screen",
    },
    { line: "sheet samples/tannery-wharf/tannery-wharf.mullion --format txt -o - --hide-codes", shows: "all of them, without codes" },
    {
      line: "sheet samples/tannery-wharf/tannery-wharf.mullion --from factory --format json -o -",
      shows: "for another program, as if all were new",
    },
  ],
  run: async ([file = ""], options, around) => {
    const { writeSheets } = await import("../sheets/write-sheets.ts");
    return writeSheets(file, options, around);
  },
};
