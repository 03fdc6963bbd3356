/** Forgets every identity and passphrase: sealed files are shut again. */
import type { Command } from "./command.ts";

export const lock: Command = {
  id: "mullion.lock",
  run: ({ keys }) => keys.lock(),
};
