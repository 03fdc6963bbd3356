/** `mullion leave`: a holder leaves every keypad in the text. */
import type { Command } from "../command.ts";
import { textOf } from "../command.ts";

export const leave: Command = {
  name: "leave",
  about: "Take a holder out of every keypad in the text, and say what must now be typed where.",
  arguments: [{ name: "<file>", about: "the site's file" }],
  options: [
    { flags: "--holder <id>", about: "the holder (required)" },
    { flags: "--dry-run", about: "say it and change nothing" },
  ],
  sealed: "needs",
  examples: [
    { line: "leave samples/tannery-wharf/tannery-wharf.mullion --holder u1 --dry-run", shows: "what it would take if that holder left" },
  ],
  run: async ([path = ""], options, around) => {
    const { takeOut } = await import("../take-out.ts");
    return takeOut(path, textOf(options, "holder"), options.dryRun === true, around);
  },
};
