/** `mullion envelope`: the installer code of one keypad alone, to be sealed. */
import { ToolProblem } from "../../tool-problem.ts";
import type { Command } from "../command.ts";
import { listOf } from "../command.ts";
import { hideCodesOption, keypadOption, paperFile, writingOptions } from "../papers/options.ts";

export const envelope: Command = {
  name: "envelope",
  about: "Write the installer code of a keypad alone, to be sealed in an envelope. The keypad has to be named.",
  arguments: paperFile,
  options: [
    { ...keypadOption, about: "the keypad; may stand more than once, each has a paper of its own" },
    ...writingOptions("NAME-KEYPAD-envelope.EXT"),
    hideCodesOption,
  ],
  sealed: "needs",
  examples: [
    {
      line: "envelope samples/tannery-wharf/tannery-wharf.mullion --keypad gate --format txt -o - --hide-codes",
      shows: "what the paper looks like, with dots for the code",
    },
  ],
  run: async ([file = ""], options, around) => {
    if (listOf(options, "keypad").length === 0) throw new ToolProblem("name the keypad whose installer code is wanted: --keypad ID");
    const [{ writePapers }, paper] = await Promise.all([import("../papers/write-papers.ts"), import("../../../shared/papers/envelope.ts")]);
    return writePapers(paper.envelope, file, options, around);
  },
};
