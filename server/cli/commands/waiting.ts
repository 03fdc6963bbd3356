/** `mullion waiting`: what is still to be typed, over all sites. */
import type { Command } from "../command.ts";
import { textOf } from "../command.ts";

export const waiting: Command = {
  name: "waiting",
  about: "List every keypad with entries waiting to be typed, how many, how long, and what must be brought. No codes.",
  arguments: [{ name: "[path...]", about: "files, or folders to look through (default: this folder)" }],
  options: [
    { flags: "--format <format>", about: "how the list is written", choices: ["text", "csv", "json"], fallback: "text" },
    { flags: "--today <day>", about: "the day that lapsing codes are judged by", day: true },
  ],
  sealed: "names",
  examples: [{ line: "waiting samples/tannery-wharf samples/curlew-court", shows: "the week ahead at two sites" }],
  run: async (paths, options, around) => {
    const { listWaiting } = await import("../list-waiting.ts");
    return listWaiting(paths, textOf(options, "format") ?? "text", textOf(options, "today") ?? around.today(), around);
  },
};
