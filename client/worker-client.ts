/** The language client whose server is a worker of the browser. */
import * as vscode from "vscode";
import { LanguageClient } from "vscode-languageclient/browser";
import { clientOptions } from "./client-options.ts";

/** @param extension the folder of the installed extension */
export function workerClient(extension: vscode.Uri): LanguageClient {
  const worker = new Worker(vscode.Uri.joinPath(extension, "out/server.js").toString(true));
  return new LanguageClient("mullion", "Mullion", worker, clientOptions());
}
