/** Writes a slip for each holder, a file each. */
import { writePaper } from "../write-paper.ts";
import type { Command } from "./command.ts";

export const writeSlips: Command = {
  id: "mullion.writeSlips",
  run: writePaper("slips"),
};
