/** `mullion doors`: locks, supplies and what the cable leaves of the volts. */
import { ToolProblem } from "../../tool-problem.ts";
import type { Command } from "../command.ts";
import { textOf } from "../command.ts";
import { meant } from "../nearest.ts";

export const doors: Command = {
  name: "doors",
  about: "List every door with its lock, what the cable leaves of the supply's volts, and every supply with its budget. No codes.",
  arguments: [{ name: "<file>", about: "the site's file" }],
  options: [
    { flags: "--door <label>", about: "only this door, by its label, and what feeds it" },
    { flags: "--format <format>", about: "how the list is written", choices: ["text", "csv", "json", "md"], fallback: "text" },
  ],
  sealed: "names",
  examples: [{ line: "doors samples/tannery-wharf/tannery-wharf.mullion", shows: "every door and the supply" }],
  run: async ([path = ""], options, around) => {
    const [{ openSite }, { doorsList }, { doorsFormats }, { sayUnreadable }] = await Promise.all([
      import("../sheets/open-site.ts"),
      import("../../../shared/doors/list.ts"),
      import("../../../shared/doors/formats/index.ts"),
      import("../asked.ts"),
    ]);
    const { site, problems } = openSite(path, undefined, around.cwd);
    const door = textOf(options, "door");
    const list = doorsList(site, door);
    if (door !== undefined && list.doors.length === 0) {
      const labels = doorsList(site).doors.map(({ label }) => label);
      throw new ToolProblem(`no door is called ${door}${meant(door, labels)}; there are ${labels.join(", ") || "none"}`);
    }
    const format = doorsFormats.find(({ name }) => name === options.format) ?? doorsFormats[0];
    if (format) around.out(format.render(list));
    return sayUnreadable(problems, around) ? 2 : 0;
  },
};
