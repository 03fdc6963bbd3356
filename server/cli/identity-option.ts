/** `--identity`, on every command that opens sealed files. */
import type { CommandOption } from "./command.ts";

export const identityOption: CommandOption = {
  flags: "--identity <file>",
  about: "the identity that opens sealed files, - to type it (default: the file that MULLION_IDENTITY names)",
};
