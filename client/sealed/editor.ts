/** A sealed file that is opened from the explorer: its text takes the place of its bytes, or the page says what is wanting. */
import * as vscode from "vscode";
import type { Keys } from "./keys.ts";
import { inView } from "./places.ts";

export class SealedEditor implements vscode.CustomReadonlyEditorProvider {
  readonly #keys: Keys;
  readonly #registered: vscode.Disposable;

  constructor(keys: Keys) {
    this.#keys = keys;
    this.#registered = vscode.window.registerCustomEditorProvider("mullion.sealed", this);
  }

  openCustomDocument(uri: vscode.Uri): vscode.CustomDocument {
    return { uri, dispose: () => {} };
  }

  resolveCustomEditor({ uri }: vscode.CustomDocument, panel: vscode.WebviewPanel): void {
    panel.webview.options = { enableCommandUris: ["mullion.unlock"] };
    // Not waited for: a page whose text takes its place goes away, and it has to be there first.
    const open = () =>
      void this.#open(uri, panel).catch(error => {
        panel.webview.html = page(error instanceof Error ? error.message : String(error));
      });
    const changed = this.#keys.onDidChange(open);
    panel.onDidDispose(() => changed.dispose());
    panel.webview.html = page("");
    open();
  }

  async #open(uri: vscode.Uri, panel: vscode.WebviewPanel): Promise<void> {
    // One side of a comparison: git shows earlier versions as text where it is told how (see the README).
    if (uri.scheme !== "file") throw new Error("Only the file as it is now can be opened here.");
    await this.#keys.given;
    const view = inView(uri);
    // Read before it is opened: the reason why it cannot be is then still in the words that were given.
    await vscode.workspace.fs.readFile(view);
    const document = await vscode.workspace.openTextDocument(view);
    const column = panel.viewColumn;
    panel.dispose();
    await vscode.window.showTextDocument(document, { ...(column === undefined ? {} : { viewColumn: column }), preview: false });
  }

  dispose(): void {
    this.#registered.dispose();
  }
}

/** @param why it does not open; empty while that is not known */
function page(why: string): string {
  const said = why.replace(/[&<>"]/g, sign => `&#${sign.charCodeAt(0)};`);
  return `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="default-src 'none'"><title>Sealed</title></head>
<body>
<h1>This file is sealed</h1>
${said === "" ? "<p>It is being opened.</p>" : `<p>${said}</p>\n<p><a href="command:mullion.unlock">Unlock sealed files</a></p>`}
</body>
</html>`;
}
