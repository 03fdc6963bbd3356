/** `mullion reseal`: sealed files anew, for those whom their lists name now. */
import type { Command } from "../command.ts";
import { identityOption } from "../identity-option.ts";

export const reseal: Command = {
  name: "reseal",
  about: "Seal files anew when their recipients have changed, and bring their names up to date; what is as it was stays untouched.",
  arguments: [{ name: "[path...]", about: "sealed files, sites, or folders to look through (default: this folder)" }],
  options: [{ flags: "--passphrase", about: "seal them with a new passphrase, which is asked for" }, identityOption],
  examples: [
    {
      line: "reseal samples/saltings-yard --identity samples/saltings-yard/test-identity.txt",
      shows: "every sealed file of a site; nothing has changed, and nothing is written",
    },
  ],
  run: async (paths, options, around) => {
    const { resealFiles } = await import("../../seal/reseal-files.ts");
    return resealFiles(paths, options, around);
  },
};
