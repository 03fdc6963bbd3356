/** How the language client behaves: which documents it serves, and that it is never loud. */
import * as vscode from "vscode";
import type { LanguageClientOptions } from "vscode-languageclient";
import { CloseAction, ErrorAction, RevealOutputChannelOn } from "vscode-languageclient";
import type { InitializationOptions } from "../shared/requests.ts";
import { sealedScheme } from "./sealed/places.ts";

/** A server that ends this often within this time is not started again. */
const restarts = { most: 4, withinMs: 180_000 };

/** Schemes of files that somebody edits. `git:` and the other sides of a diff are coloured and nothing else. */
const alwaysServed = ["file", "untitled", sealedScheme, "vscode-vfs", "vscode-remote", "vscode-test-web", "memfs"];

/** Commands that a lens, a quick fix or a hover of the server may name. */
const namedByServer: InitializationOptions["commands"] = [
  "mullion.exportSheet",
  "mullion.previewSheet",
  "mullion.recordAsTyped",
  "mullion.whoOpensWhat",
  "mullion.drawCode",
  "mullion.explain",
];

export function clientOptions(): LanguageClientOptions {
  const folders = vscode.workspace.workspaceFolders ?? [];
  const schemes = new Set([...alwaysServed, ...folders.map(folder => folder.uri.scheme)]);
  const ended: number[] = [];
  return {
    documentSelector: [...schemes].map(scheme => ({ language: "mullion", scheme })),
    outputChannelName: "Mullion",
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    initializationOptions: { commands: namedByServer } satisfies InitializationOptions,
    initializationFailedHandler: () => false,
    errorHandler: {
      error: () => ({ action: ErrorAction.Continue, handled: true }),
      closed() {
        const now = Date.now();
        ended.push(now);
        const lately = ended.filter(time => now - time < restarts.withinMs).length;
        return { action: lately > restarts.most ? CloseAction.DoNotRestart : CloseAction.Restart, handled: true };
      },
    },
  };
}
