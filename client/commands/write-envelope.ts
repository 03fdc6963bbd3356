/** Writes the installer code of a keypad alone, to be sealed. */
import { writePaper } from "../write-paper.ts";
import type { Command } from "./command.ts";

export const writeEnvelope: Command = {
  id: "mullion.writeEnvelope",
  run: writePaper("envelope"),
};
