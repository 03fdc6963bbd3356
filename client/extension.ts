/** Mullion in VS Code on a desktop or a remote machine: the language server runs as a process of its own. */
import type * as vscode from "vscode";
import type { Mullion } from "./mullion.ts";
import { start } from "./mullion.ts";

export function activate(context: vscode.ExtensionContext): Mullion {
  return start(context, async () => (await import("./process-client.ts")).processClient(context.extensionUri));
}
