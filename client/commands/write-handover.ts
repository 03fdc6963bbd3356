/** Writes the handover of a site, with a page for each door. */
import { writePaper } from "../write-paper.ts";
import type { Command } from "./command.ts";

export const writeHandover: Command = {
  id: "mullion.writeHandover",
  run: writePaper("handover"),
};
