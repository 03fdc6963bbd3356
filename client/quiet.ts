/** A language client that is never heard unasked. */
import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { ShowMessageNotification } from "vscode-languageclient";

/**
 * Sends what goes wrong to the log, and shows it in the language's status at the most: only a command that the user started
 * may speak up. A trace holds which messages went and when, not their words, which would hold the codes of a site.
 */
export function quieten(client: BaseLanguageClient): vscode.Disposable {
  const error = client.error.bind(client);
  client.error = (message, detail) => error(message, detail, false);
  const trace = client.trace.bind(client);
  client.trace = message => trace(message);

  const shown = new vscode.Disposable(() => status?.dispose());
  let status: vscode.LanguageStatusItem | undefined;
  client.onNotification(ShowMessageNotification.type, said => {
    client.outputChannel.appendLine(said.message);
    status ??= vscode.languages.createLanguageStatusItem("mullion.fault", { language: "mullion" });
    status.name = "Mullion";
    status.text = said.message;
    status.severity = vscode.LanguageStatusSeverity.Warning;
    status.command = { title: "Show the log", command: "mullion.showLog" };
  });
  const showLog = vscode.commands.registerCommand("mullion.showLog", () => client.outputChannel.show());
  return vscode.Disposable.from(shown, showLog);
}
