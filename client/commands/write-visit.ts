/** Writes a note of the next visit, in sentences and without codes. */
import { writePaper } from "../write-paper.ts";
import type { Command } from "./command.ts";

export const writeVisit: Command = {
  id: "mullion.writeVisit",
  run: writePaper("visit"),
};
