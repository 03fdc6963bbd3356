/** `mullion slips`: a slip for each holder with what is keyed or presented, at which door, from when and until when. */
import type { Command } from "../command.ts";
import { hideCodesOption, keypadOption, paperFile, writingOptions } from "../papers/options.ts";

export const slips: Command = {
  name: "slips",
  about: "Write a slip for each holder: what to key or present, at which door, from which visit, until when, whom to call. One file each.",
  arguments: paperFile,
  options: [
    { flags: "--holder <id>", about: "only this holder; may stand more than once", repeated: true },
    keypadOption,
    ...writingOptions("NAME-slip-HOLDER.EXT"),
    hideCodesOption,
  ],
  sealed: "needs",
  examples: [
    { line: "slips samples/tannery-wharf/tannery-wharf.mullion --holder u3 --format txt -o -", shows: "one holder's slip, on the screen" },
    {
      line: "slips samples/tannery-wharf/tannery-wharf.mullion --holder u3 --format md --hide-codes -o -",
      shows: "the same with dots for every code",
    },
  ],
  run: async ([file = ""], options, around) => {
    const [{ writePapers }, paper] = await Promise.all([import("../papers/write-papers.ts"), import("../../../shared/papers/slips.ts")]);
    return writePapers(paper.slips, file, options, around);
  },
};
