/** What the language server may ask of the editor: texts that lie in no file of this machine. */
import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import type { Questions } from "../shared/requests.ts";

type Params<M extends keyof Questions> = Questions[M]["params"];
type Result<M extends keyof Questions> = Promise<Questions[M]["result"]>;

export function answerServer(client: BaseLanguageClient): void {
  client.onRequest("mullion/readFile", readFile);
  client.onRequest("mullion/findFiles", findFiles);
}

async function readFile({ uri }: Params<"mullion/readFile">): Result<"mullion/readFile"> {
  try {
    const bytes = await vscode.workspace.fs.readFile(vscode.Uri.parse(uri, true));
    return { text: new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes) };
  } catch {
    return { text: null };
  }
}

async function findFiles(): Result<"mullion/findFiles"> {
  const found = await vscode.workspace.findFiles("**/*.mullion");
  return { uris: found.filter(uri => uri.scheme !== "file").map(uri => uri.toString()) };
}
