/** `mullion register`: who has a place in which keypad, without codes. */
import type { Command } from "../command.ts";
import { keypadOption, paperFile, writingOptions } from "../papers/options.ts";

export const register: Command = {
  name: "register",
  about: "Write the register of a site: slots and holders, fitted on which date or waiting. No codes.",
  arguments: paperFile,
  options: [keypadOption, ...writingOptions("NAME-register.EXT")],
  sealed: "needs",
  examples: [
    { line: "register samples/tannery-wharf/tannery-wharf.mullion --format txt -o -", shows: "the whole register, on the screen" },
    { line: "register samples/tannery-wharf/tannery-wharf.mullion --keypad gate --format md -o -", shows: "one keypad's, in Markdown" },
  ],
  run: async ([file = ""], options, around) => {
    const [{ writePapers }, paper] = await Promise.all([import("../papers/write-papers.ts"), import("../../../shared/papers/register.ts")]);
    return writePapers(paper.register, file, options, around);
  },
};
