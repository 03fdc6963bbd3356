/** `mullion keys`: an identity of one's own, and the recipient that others seal for. */
import type { Command } from "../command.ts";

export const keys: Command = {
  name: "keys",
  about: "new: make an identity that opens what is sealed for it. show FILE: print the recipient that belongs to one.",
  arguments: [{ name: "<what...>", about: "new, or show and a file of an identity" }],
  options: [
    { flags: "-o, --output <path>", about: "where the new identity is kept; nothing is written over" },
    { flags: "--passphrase", about: "protect it with a passphrase, which is asked for" },
    { flags: "--into-git", about: "also where git tracks the folder" },
  ],
  examples: [
    { line: "keys show samples/saltings-yard/test-identity.txt", shows: "the recipient that stands in people.recipients of that sample" },
  ],
  run: async (words, options, around) => {
    const { atIdentities } = await import("../../seal/identity-files.ts");
    return atIdentities(words, options, around);
  },
};
