/** The extension at work, the same on a desktop and in a browser: server, commands, preview and status item. */
import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { State } from "vscode-languageclient";
import type { Requests } from "../shared/requests.ts";
import { answerServer } from "./answers.ts";
import { commands } from "./commands/index.ts";
import { Faults } from "./faults.ts";
import { Papers } from "./papers.ts";
import { Previews } from "./preview.ts";
import { quieten } from "./quiet.ts";
import { SealedEditor } from "./sealed/editor.ts";
import { SealedTexts } from "./sealed/file-system.ts";
import { Keys } from "./sealed/keys.ts";
import { showWaiting } from "./waiting.ts";

/** What commands and views work with; also what the extension gives to others that ask for it. */
export interface Mullion {
  /** Settled as soon as the language server answers; rejected when it cannot be started. */
  readonly ready: Promise<void>;
  /** Asks the language server. @throws what it answers as an error */
  ask<M extends keyof Requests>(method: M, params: Requests[M]["params"]): Promise<Requests[M]["result"]>;
  readonly papers: Papers;
  readonly previews: Previews;
  readonly keys: Keys;
}

export function start(context: vscode.ExtensionContext, makeClient: () => Promise<BaseLanguageClient>): Mullion {
  const faults = new Faults();
  const client = afterThis()
    .then(makeClient)
    .then(made => {
      quieten(made, faults);
      answerServer(made);
      context.subscriptions.push(made);
      return made;
    });
  const ready = client.then(made => made.start());
  ready.catch(() => faults.show("The language server of Mullion does not start; the log says why."));

  const ask: Mullion["ask"] = async (method, params) => {
    await ready;
    return (await client).sendRequest(method, params);
  };
  const papers = new Papers();
  const previews = new Previews(ask, vscode.Uri.joinPath(context.extensionUri, "client/icons/mullion.svg"));
  const keys = new Keys(context.secrets, ask);
  // Also a server that was started again knows nothing of them.
  void client.then(made => made.onDidChangeState(({ newState }) => newState === State.Running && keys.give())).catch(() => {});
  const sealedTexts = new SealedTexts(ask, () => ready.then(() => keys.given));
  const mullion: Mullion = { ready, ask, papers, previews, keys };
  context.subscriptions.push(faults, papers, previews, keys, sealedTexts, new SealedEditor(keys), showWaiting(mullion));
  for (const command of commands)
    context.subscriptions.push(vscode.commands.registerCommand(command.id, (...args) => run(command.run(mullion, ...args))));
  return mullion;
}

/** The client is most of the bundle: it is set up when VS Code has been answered and goes on with its own start. */
function afterThis(): Promise<void> {
  return new Promise(resolve => setTimeout(resolve, 0));
}

/** A command that fails says so; its result is for whoever called it by program. */
async function run<T>(work: Promise<T>): Promise<T | undefined> {
  try {
    return await work;
  } catch (error) {
    void vscode.window.showErrorMessage(`Mullion: ${error instanceof Error ? error.message : String(error)}`);
    return undefined;
  }
}
