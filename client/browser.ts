/** Mullion in VS Code in a browser: the language server runs in a worker and asks the editor for every file. */
import * as vscode from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import { clientOptions } from "./client-options.ts";
import type { Mullion } from "./mullion.ts";
import { start } from "./mullion.ts";

export function activate(context: vscode.ExtensionContext): Mullion {
  const worker = new Worker(vscode.Uri.joinPath(context.extensionUri, "out/browser/server.js").toString(true));
  return start(context, new LanguageClient("mullion", "Mullion", worker, clientOptions()));
}
