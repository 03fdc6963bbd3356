/** `mullion unseal`: the text of a sealed file, on standard output unless the disk is asked for. */
import type { Command } from "../command.ts";
import { identityOption } from "../identity-option.ts";

export const unseal: Command = {
  name: "unseal",
  about: "Print what is in a sealed file; with -o, write it in plain text.",
  arguments: [{ name: "<file>", about: "the sealed file" }],
  options: [
    { flags: "-o, --output <path>", about: "write it there instead, in plain text" },
    { flags: "--into-git", about: "also where git tracks the folder" },
    identityOption,
  ],
  examples: [
    {
      line: "unseal samples/saltings-yard/people.mullion.age --identity samples/saltings-yard/test-identity.txt",
      shows: "the holders of a sample, whose identity everybody has",
    },
  ],
  run: async ([path = ""], options, around) => {
    const { unsealFile } = await import("../../seal/unseal-file.ts");
    return unsealFile(path, options, around);
  },
};
