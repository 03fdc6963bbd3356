/** Mullion in VS Code in a browser: the language server runs in a worker and asks the editor for every file. */
import type * as vscode from "vscode";
import type { Mullion } from "./mullion.ts";
import { start } from "./mullion.ts";

export function activate(context: vscode.ExtensionContext): Mullion {
  return start(context, async () => (await import("./worker-client.ts")).workerClient(context.extensionUri));
}
