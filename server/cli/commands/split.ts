/** `mullion split`: the codes of a plain site into a sealed file. */
import type { Command } from "../command.ts";
import { identityOption } from "../identity-option.ts";

export const split: Command = {
  name: "split",
  about: "Take holders, installer codes and records of a plain site out into sealed files, and show exactly what changes.",
  arguments: [{ name: "<file>", about: "the site's file" }],
  options: [
    { flags: "--to <path>", about: "the sealed file (default: people.mullion.age beside the site)" },
    { flags: "--passphrase", about: "seal with a passphrase, which is asked for, rather than for recipients" },
    { flags: "--dry-run", about: "write nothing; show what would change" },
    identityOption,
  ],
  examples: [{ line: "split samples/curlew-court/curlew-court.mullion --dry-run", shows: "what would be sealed, and what would stay" }],
  run: async ([path = ""], options, around) => {
    const { splitSiteAt } = await import("../../seal/split-site.ts");
    return splitSiteAt(path, options, around);
  },
};
