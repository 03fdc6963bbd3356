/** Opens the run sheet of a keypad beside the text; it follows what is typed. */
import { activeFile, chooseKeypads } from "../choose.ts";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const previewSheet: Command = {
  id: "mullion.previewSheet",
  async run(mullion, file, keypad) {
    const uri = text(file) ?? activeFile();
    const chosen = await chooseKeypads(mullion, uri, text(keypad));
    if (chosen) await mullion.previews.open(uri, chosen);
  },
};
