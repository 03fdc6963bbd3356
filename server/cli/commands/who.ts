/** `mullion who`: who opens what, now and after the next visit. */
import { ToolProblem } from "../../tool-problem.ts";
import type { Command } from "../command.ts";
import { textOf } from "../command.ts";
import { meant } from "../nearest.ts";

export const who: Command = {
  name: "who",
  about: "Say who opens what: now, by what is fitted, and after the next visit. No codes.",
  arguments: [{ name: "<file>", about: "the site's file" }],
  options: [
    { flags: "--door <label>", about: "only this door, by its label" },
    { flags: "--holder <id>", about: "only this holder" },
    { flags: "--at <revision>", about: "as text and record were at an earlier git revision" },
    { flags: "--format <format>", about: "how the table is written", choices: ["text", "csv", "json", "html", "md"], fallback: "text" },
    { flags: "--today <day>", about: "the day that lapsing codes are judged by", day: true },
  ],
  sealed: "needs",
  examples: [
    { line: "who samples/tannery-wharf/tannery-wharf.mullion", shows: "every door and everyone who opens it" },
    { line: "who samples/tannery-wharf/tannery-wharf.mullion --format csv", shows: "the same for a spreadsheet" },
  ],
  run: async ([path = ""], options, around) => {
    const [{ openSite }, { waysIn, narrowed }, { whoTable }, { whoFormats }, { sayUnreadable }] = await Promise.all([
      import("../sheets/open-site.ts"),
      import("../../../shared/who/who.ts"),
      import("../../../shared/who/table.ts"),
      import("../../../shared/who/formats/index.ts"),
      import("../asked.ts"),
    ]);
    const today = textOf(options, "today") ?? around.today();
    const at = textOf(options, "at");
    const { site, problems } =
      at === undefined ? openSite(path, undefined, around.cwd) : await (await import("../site-at.ts")).siteAt(path, at, around.cwd);
    const ways = waysIn(site, today);
    const door = textOf(options, "door");
    const holder = textOf(options, "holder");
    const doors = [...new Set(ways.map(way => way.door))];
    if (door !== undefined && !doors.includes(door))
      throw new ToolProblem(`no door is called ${door}${meant(door, doors)}; there are ${doors.join(", ")}`);
    if (holder !== undefined && !site.holders.has(holder)) {
      throw new ToolProblem(`the site has no holder ${holder}${meant(holder, site.holders.keys())}`);
    }
    const only = { ...(door === undefined ? {} : { door }), ...(holder === undefined ? {} : { holder }) };
    const format = whoFormats.find(({ name }) => name === options.format) ?? whoFormats[0];
    if (format) around.out(format.render(whoTable(site, narrowed(ways, only), today)));
    return sayUnreadable(problems, around) ? 2 : 0;
  },
};
