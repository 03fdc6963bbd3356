/** Shows who opens what at a site, now and after the next visit. */
import { activeFile } from "../choose.ts";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const whoOpensWhat: Command = {
  id: "mullion.whoOpensWhat",
  async run(mullion, file) {
    const { markdown } = await mullion.ask("mullion/who", { uri: text(file) ?? activeFile() });
    await mullion.papers.show("Who opens what", markdown);
  },
};
