/** Run sheets beside the text, drawn again as the text changes. */
import * as vscode from "vscode";
import type { WaitingKeypad } from "../shared/requests.ts";
import { later } from "./later.ts";
import type { Mullion } from "./mullion.ts";
import { emptyPage } from "./preview-page.ts";

/** Milliseconds of no typing after which a sheet is drawn again. */
const pauseMs = 250;

interface Preview {
  readonly panel: vscode.WebviewPanel;
  readonly draw: () => Promise<void>;
}

export class Previews {
  readonly #ask: Mullion["ask"];
  readonly #open = new Map<string, Preview>();
  readonly #watching: vscode.Disposable[];

  constructor(ask: Mullion["ask"]) {
    this.#ask = ask;
    const drawAll = later(pauseMs, () => void this.#drawAll());
    const files = vscode.workspace.createFileSystemWatcher("**/*.mullion");
    this.#watching = [
      drawAll,
      files,
      files.onDidChange(drawAll),
      files.onDidCreate(drawAll),
      files.onDidDelete(drawAll),
      vscode.workspace.onDidChangeTextDocument(change => change.document.languageId === "mullion" && drawAll()),
      vscode.workspace.onDidChangeConfiguration(change => change.affectsConfiguration("mullion") && drawAll()),
    ];
  }

  /** Opens the sheets of these keypads in one tab beside the text, or shows the tab that is open. */
  async open(uri: string, keypads: readonly WaitingKeypad[]): Promise<void> {
    const ids = keypads.map(keypad => keypad.keypad);
    const key = [uri, ...ids].join("\n");
    const there = this.#open.get(key);
    if (there) {
      there.panel.reveal(undefined, true);
      return there.draw();
    }
    const title = `Run sheet: ${keypads.length === 1 ? keypads[0]?.label : keypads[0]?.site}`;
    const beside = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    const panel = vscode.window.createWebviewPanel("mullion.sheet", title, beside, { enableScripts: true, localResourceRoots: [] });
    const listening = new Promise<void>(resolve => panel.webview.onDidReceiveMessage(() => resolve()));
    panel.webview.html = emptyPage();
    const draw = async () => {
      await listening;
      await panel.webview.postMessage(await this.#sheets(uri, ids));
    };
    this.#open.set(key, { panel, draw });
    panel.onDidDispose(() => this.#open.delete(key));
    await draw();
  }

  async #sheets(uri: string, keypads: readonly string[]): Promise<{ sheets: readonly string[]; held: readonly string[] }> {
    const hideCodes = vscode.workspace.getConfiguration("mullion", vscode.Uri.parse(uri)).get("maskCodes", false);
    const sheet = await this.#ask("mullion/sheet", { uri, keypads, format: "md", hideCodes });
    const held = sheet.held.flatMap(({ label, reasons }) => reasons.map(reason => `${label}: ${reason}`));
    const pages = sheet.files.map(file => vscode.commands.executeCommand<string>("markdown.api.render", file.content));
    return { sheets: await Promise.all(pages), held };
  }

  async #drawAll(): Promise<void> {
    // A sheet that cannot be had for the moment stays as it is: nobody asked for this drawing.
    await Promise.allSettled([...this.#open.values()].map(preview => preview.draw()));
  }

  dispose(): void {
    for (const one of this.#watching) one.dispose();
    for (const { panel } of this.#open.values()) panel.dispose();
  }
}
