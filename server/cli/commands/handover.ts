/** `mullion handover`: what was installed and tried, and a page for each door with what is measured there. */
import type { Command } from "../command.ts";
import { keypadOption, paperFile, writingOptions } from "../papers/options.ts";

export const handover: Command = {
  name: "handover",
  about: "Write the handover of a site: what was installed and tried, and a page for each door with blanks for what is measured. No codes.",
  arguments: paperFile,
  options: [keypadOption, ...writingOptions("NAME-handover.EXT")],
  sealed: "needs",
  examples: [
    { line: "handover samples/tannery-wharf/tannery-wharf.mullion --format txt -o -", shows: "the whole handover, on the screen" },
    { line: "handover samples/curlew-court/curlew-court.mullion --keypad plant --format md -o -", shows: "one keypad and its doors" },
  ],
  run: async ([file = ""], options, around) => {
    const [{ writePapers }, paper] = await Promise.all([import("../papers/write-papers.ts"), import("../../../shared/papers/handover.ts")]);
    return writePapers(paper.handover, file, options, around);
  },
};
