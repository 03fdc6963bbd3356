/** `mullion visit`: what was fitted before and after a visit, in sentences, without codes. */
import type { Command } from "../command.ts";
import { keypadOption, paperFile, writingOptions } from "../papers/options.ts";

export const visit: Command = {
  name: "visit",
  about: "Write a note of a visit, in sentences: what was fitted before and after. No codes.",
  arguments: paperFile,
  options: [
    { flags: "--from <record>", about: "an earlier fitted record: a note of what was done since (default: of what the next visit does)" },
    keypadOption,
    ...writingOptions("NAME-visit.EXT"),
  ],
  sealed: "needs",
  examples: [
    { line: "visit samples/tannery-wharf/tannery-wharf.mullion --format txt -o -", shows: "what the next visit changes, on the screen" },
    { line: "visit samples/curlew-court/curlew-court.mullion --keypad door --format md -o -", shows: "one keypad's, in Markdown" },
  ],
  run: async ([file = ""], options, around) => {
    const [{ writePapers }, paper] = await Promise.all([import("../papers/write-papers.ts"), import("../../../shared/papers/visit.ts")]);
    return writePapers(paper.visit, file, options, around);
  },
};
