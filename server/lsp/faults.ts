/** What happens when Mullion itself is at fault: the log has it, without any code; the answer is empty; the user hears of it once. */
import type { Connection } from "vscode-languageserver";
import { MessageType, ShowMessageNotification } from "vscode-languageserver";

/** A run of digits this long may be a code; a line number in a stack is kept. */
const maybeCode = /\d{3,}/g;

/** The fault in words and where it arose. Words in quotes and longer digit runs may come from the user's text and are left out. */
export function describeFault(what: string, fault: unknown): string {
  if (!(fault instanceof Error)) return `${what}: something was thrown that is no error`;
  const [, ...lines] = (fault.stack ?? "").split("\n");
  const where = lines.filter(line => line.trimStart().startsWith("at ")).slice(0, 8);
  const words = fault.message.replaceAll(/"[^"]*"/g, '"…"').replaceAll(maybeCode, "…");
  return [`${what}: ${fault.name}: ${words}`, ...where].join("\n");
}

export class Faults {
  readonly #connection: Connection;
  #told = false;

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  report(what: string, fault: unknown): void {
    this.#connection.console.error(describeFault(what, fault));
    if (this.#told) return;
    this.#told = true;
    const message = `Mullion met a fault of its own in ${what} and left that answer empty. Everything else goes on; the log says where.`;
    void this.#connection.sendNotification(ShowMessageNotification.type, { type: MessageType.Error, message });
  }
}
