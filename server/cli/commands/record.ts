/** `mullion record`: what was typed at a keypad goes into the fitted record. */
import type { Command } from "../command.ts";

export const record: Command = {
  name: "record",
  about: "Write into the fitted record what was typed from a run sheet.",
  arguments: [{ name: "<file>", about: "the site's file" }],
  options: [
    { flags: "--keypad <id>", about: "the keypad (required); may stand more than once", repeated: true },
    {
      flags: "--sheet <number>",
      about: "the number of the sheet that was typed from (required), one for each keypad in the same order",
      repeated: true,
    },
    { flags: "--all", about: "every entry was taken" },
    { flags: "--done <entries>", about: "the entries that were taken, by their numbers: 1-6,8" },
    { flags: "--doubt <entries>", about: "the entries that nobody is sure of: what they change is unknown from now on" },
    { flags: "--date <day>", about: "the day of the visit (default: today)", day: true },
    { flags: "--from <start>", about: "what the sheet was made with, where it was an earlier record or text, or factory" },
    { flags: "--replaced", about: "the keypad was swapped for a new one: the sheet was made with --from factory" },
  ],
  sealed: "needs",
  examples: [{ line: "record --help", shows: "what the phone's last page gives you to type after a visit" }],
  run: async ([file = ""], options, around) => {
    const { recordTypedAt } = await import("../record-typed.ts");
    return recordTypedAt(file, options, around);
  },
};
