/** Mullion in VS Code on a desktop or a remote machine: the language server runs as a process of its own. */
import * as vscode from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { clientOptions } from "./client-options.ts";
import type { Mullion } from "./mullion.ts";
import { start } from "./mullion.ts";

export function activate(context: vscode.ExtensionContext): Mullion {
  const module = vscode.Uri.joinPath(context.extensionUri, "out/server.js").fsPath;
  const server = { module, transport: TransportKind.ipc };
  return start(context, new LanguageClient("mullion", "Mullion", { run: server, debug: server }, clientOptions()));
}
