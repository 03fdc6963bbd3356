/** `mullion seal`: a plain file into a sealed one, beside it. */
import type { Command } from "../command.ts";
import { identityOption } from "../identity-option.ts";

export const seal: Command = {
  name: "seal",
  about: "Seal a file: NAME.mullion becomes NAME.mullion.age, for the recipients in NAME.recipients.",
  arguments: [{ name: "<file>", about: "the plain file; a fitted record, too" }],
  options: [
    { flags: "--passphrase", about: "seal it with a passphrase, which is asked for, rather than for recipients" },
    { flags: "--remove", about: "remove the plain file once the sealed one is written" },
    { flags: "--dry-run", about: "write nothing; show the names that would stand beside it" },
    identityOption,
  ],
  examples: [
    {
      line: "seal samples/tannery-wharf/holders.mullion --dry-run",
      shows: "what everybody would still see, by name, if this file were sealed",
    },
  ],
  run: async ([path = ""], options, around) => {
    const { sealFile } = await import("../../seal/seal-file.ts");
    return sealFile(path, options, around);
  },
};
