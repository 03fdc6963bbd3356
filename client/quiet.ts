/** A language client that is never heard unasked. */
import type { BaseLanguageClient } from "vscode-languageclient";
import type { Faults } from "./faults.ts";

/**
 * Sends what goes wrong to the log, and shows it in the language's status at the most: only a command that the user started
 * may speak up. A trace holds which messages went and when, not their words, which would hold the codes of a site.
 */
export function quieten(client: BaseLanguageClient, faults: Faults): void {
  const error = client.error.bind(client);
  client.error = (message, detail) => error(message, detail, false);
  const trace = client.trace.bind(client);
  client.trace = message => trace(message);
  client.onNotification("window/showMessage", ({ message }: { message: string }) => {
    client.outputChannel.appendLine(message);
    faults.show(message);
  });
}
