/** Writes the register of a site: who has a place in which keypad, without codes. */
import { writePaper } from "../write-paper.ts";
import type { Command } from "./command.ts";

export const writeRegister: Command = {
  id: "mullion.writeRegister",
  run: writePaper("register"),
};
