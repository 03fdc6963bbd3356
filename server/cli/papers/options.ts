/** The options that every paper's command takes. */
import type { CommandOption } from "../command.ts";

export const paperFile = [{ name: "<file>", about: "the site's file" }] as const;

export const keypadOption: CommandOption = { flags: "--keypad <id>", about: "only this keypad; may stand more than once", repeated: true };

export const hideCodesOption: CommandOption = { flags: "--hide-codes", about: "dots in place of every code" };

/** @param file what the file is called beside the site, `NAME-register.EXT` */
export function writingOptions(file: string): readonly CommandOption[] {
  return [
    { flags: "--format <format>", about: "how it is written", choices: ["html", "pdf", "md", "txt"], fallback: "html" },
    { flags: "-o, --output <path>", about: `a file, a folder, or - for standard output (default: ${file} beside the site)` },
    { flags: "--today <day>", about: "the day that stands on it", day: true },
  ];
}
