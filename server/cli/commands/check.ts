/** `mullion check`: every finding of every site. */
import type { Command } from "../command.ts";
import { textOf } from "../command.ts";

const manyFiles = 200;

export const check: Command = {
  name: "check",
  about: "Report what is wrong with sites, keypad models and fitted records.",
  arguments: [{ name: "[path...]", about: "files, or folders to look through (default: this folder)" }],
  options: [
    {
      flags: "--format <format>",
      about: "how findings are written",
      choices: ["text", "json", "sarif", "github", "junit"],
      fallback: "text",
    },
    { flags: "--staged", about: "what is staged in git, rather than what is on disk" },
    { flags: "--strict", about: "warnings, too, make the exit status 1" },
    { flags: "--today <day>", about: "the day that lapsing codes are judged by", day: true },
  ],
  sealed: "names",
  examples: [
    { line: "check samples/tannery-wharf", shows: "checks a site with its keypad models and says what it found" },
    { line: "check samples/tannery-wharf samples/curlew-court --format json", shows: "two sites, for another program" },
    { line: "check samples/tannery-wharf --today 2026-12-24", shows: "what will have lapsed by then" },
  ],
  run: async (paths, options, around) => {
    const [{ filesAsked, sayUnreadable }, { checkFiles, withCompanions }, { findingFormats }] = await Promise.all([
      import("../asked.ts"),
      import("../findings/check-files.ts"),
      import("../findings/formats/index.ts"),
    ]);
    const today = textOf(options, "today") ?? around.today();
    // The git command is only for those who ask for it.
    const staged = options.staged === true ? (await import("../../staged.ts")).stagedIn(around.cwd) : undefined;
    const asked = staged ? { files: staged.asked(paths), problems: [] } : filesAsked(paths, around.cwd);
    // Sites are let go of one after the other, so that room for young values that grows with their number would only take memory.
    if (asked.files.length > manyFiles) (await import("node:v8")).setFlagsFromString("--semi-space-growth-factor=1");
    const { report, problems } = checkFiles(withCompanions(asked.files, staged?.has), today, around, staged?.shelf);
    const format = findingFormats.find(({ name }) => name === options.format) ?? findingFormats[0];
    if (format) around.out(await format.render(report));
    if (sayUnreadable([...asked.problems, ...problems], around)) return 2;
    return report.errors > 0 || (options.strict === true && report.warnings > 0) ? 1 : 0;
  },
};
