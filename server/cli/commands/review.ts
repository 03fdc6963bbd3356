/** `mullion review`: what a change of the text means for people and doors, and what it will take to type it. */
import type { Command } from "../command.ts";

export const review: Command = {
  name: "review",
  about: "Say what a change means for people and doors, and what it will take to type it. No codes.",
  arguments: [{ name: "<path...>", about: "the old file and the new one; with --since files, or folders to look through for sites" }],
  options: [
    { flags: "--since <revision>", about: "compare with how text and record were at a git revision: HEAD~1, main, a tag" },
    { flags: "--exit-code", about: "the exit status is 1 when there is something to type" },
    { flags: "--format <format>", about: "how it is written; md for a pull request", choices: ["text", "md", "json"], fallback: "text" },
    { flags: "--today <day>", about: "the day that lapsing codes are judged by", day: true },
  ],
  sealed: "needs",
  examples: [
    {
      line: "review samples/curlew-court/curlew-court.mullion samples/curlew-court/curlew-court.mullion",
      shows: "two texts of one site; here nothing changes",
    },
    { line: "review --help", shows: "and between two revisions of a repository: review samples --since HEAD~1 --format md" },
  ],
  run: async (paths, options, around) => {
    const { reviewSites } = await import("../review-sites.ts");
    return reviewSites(paths, options, around);
  },
};
