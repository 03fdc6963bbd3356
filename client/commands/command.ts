/** What a command of the extension is: its name as in package.json, and what it does. */
import type { Mullion } from "../mullion.ts";

export interface Command {
  readonly id: `mullion.${string}`;
  /** @throws an error whose message is shown to whoever started the command */
  run(mullion: Mullion, ...args: unknown[]): Promise<unknown>;
}

/** An argument that came with the command, as text, or undefined where it came without. */
export function text(value: unknown): string | undefined {
  return typeof value === "string" ? value : undefined;
}
