/** Shows what waits to be typed at every keypad of every site in the folders that are open: the week ahead. */
import type { Command } from "./command.ts";

export const listWaiting: Command = {
  id: "mullion.listWaiting",
  async run(mullion) {
    const { markdown } = await mullion.ask("mullion/waiting", {});
    await mullion.papers.show("What waits to be typed", markdown ?? "");
  },
};
