/** The language client whose server is a process. */
import * as vscode from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { clientOptions } from "./client-options.ts";

/** @param extension the folder of the installed extension */
export function processClient(extension: vscode.Uri): LanguageClient {
  const module = vscode.Uri.joinPath(extension, "out/server.js").fsPath;
  const server = { module, transport: TransportKind.ipc };
  return new LanguageClient("mullion", "Mullion", { run: server, debug: server }, clientOptions());
}
