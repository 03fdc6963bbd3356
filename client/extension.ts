/** Mullion in VS Code on a desktop or a remote machine: the language server runs as a process of its own. */
import * as vscode from "vscode";
import { LanguageClient, TransportKind } from "vscode-languageclient/node";
import { clientOptions } from "./client-options.ts";
import type { Mullion } from "./mullion.ts";
import { start } from "./mullion.ts";

export function activate(context: vscode.ExtensionContext): Mullion {
  const module = vscode.Uri.joinPath(context.extensionUri, "out/server.js").fsPath;
  const server = { module, transport: TransportKind.ipc };
  return start(context, new QuietClient("mullion", "Mullion", { run: server, debug: server }, clientOptions()));
}

/** Writes what goes wrong to the log and never shows it unasked: only a command that the user started may speak up. */
class QuietClient extends LanguageClient {
  override error(message: string, detail?: unknown): void {
    super.error(message, detail, false);
  }

  /** What is said and when, but not with which words: a trace of whole messages would hold the codes of a site. */
  override trace(message: string): void {
    super.trace(message);
  }
}
