/** Takes one more identity or passphrase that opens sealed files. */
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const unlock: Command = {
  id: "mullion.unlock",
  /** @param identities the content of an identity file, for whoever calls the command by program */
  run({ keys }, identities) {
    const given = text(identities);
    return keys.unlock(given === undefined ? undefined : { identities: given });
  },
};
