/** `mullion issue`: a new code for a holder, drawn within every rule of the keypads where it is used. */
import type { Command } from "../command.ts";
import { textOf } from "../command.ts";

export const issue: Command = {
  name: "issue",
  about: "Draw a new code for a holder and print it; with --write, put it into the text.",
  arguments: [{ name: "<file>", about: "the site's file" }],
  options: [
    { flags: "--holder <id>", about: "the holder (required)" },
    { flags: "--name <name>", about: "a code of this name (default: the unnamed one)" },
    { flags: "--write", about: "write it into the text in place of the old one; nothing else changes" },
  ],
  sealed: "needs",
  examples: [{ line: "issue samples/tannery-wharf/tannery-wharf.mullion --holder u1", shows: "a code that could be given to that holder" }],
  run: async ([path = ""], options, around) => {
    const { issueTo } = await import("../issue-to.ts");
    return issueTo(path, textOf(options, "holder"), textOf(options, "name"), options.write === true, around);
  },
};
