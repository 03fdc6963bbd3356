/** Run sheets beside the text: drawn again as the text changes, each entry leading to its line and each line to its entry. */
import * as vscode from "vscode";
import type { EntryPlace, PreviewResult, WaitingKeypad } from "../shared/requests.ts";
import { later } from "./later.ts";
import type { Mullion } from "./mullion.ts";
import type { EntryNamed, FromPage, PreviewOf, ToPage } from "./preview-page.ts";
import { emptyPage, previewOf } from "./preview-page.ts";

/** Milliseconds of no typing after which a sheet is drawn again: short enough to look like none. */
const pauseMs = 30;

const viewType = "mullion.sheet";
const pageOptions = { enableScripts: true, localResourceRoots: [] };

interface Preview {
  readonly panel: vscode.WebviewPanel;
  readonly draw: () => Promise<void>;
  /** Marks the entry that a line of the text is about. */
  readonly follow: (editor: vscode.TextEditor) => void;
}

export class Previews {
  readonly #ask: Mullion["ask"];
  readonly #icon: vscode.Uri;
  readonly #open = new Map<string, Preview>();
  readonly #watching: vscode.Disposable[];

  /** @param icon of the tabs */
  constructor(ask: Mullion["ask"], icon: vscode.Uri) {
    this.#ask = ask;
    this.#icon = icon;
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
      vscode.window.registerWebviewPanelSerializer(viewType, { deserializeWebviewPanel: async (panel, kept) => this.reopen(panel, kept) }),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
        if (textEditor.document.languageId === "mullion") for (const { follow } of this.#open.values()) follow(textEditor);
      }),
    ];
  }

  /** Opens the sheets of these keypads in one tab beside the text, or shows the tab that is open. */
  async open(uri: string, keypads: readonly WaitingKeypad[]): Promise<void> {
    const ids = keypads.map(keypad => keypad.keypad);
    const key = keyOf({ uri, keypads: ids });
    const there = this.#open.get(key);
    if (there) {
      there.panel.reveal(undefined, true);
      return there.draw();
    }
    const title = `Run sheet: ${keypads.length === 1 ? keypads[0]?.label : keypads[0]?.site}`;
    const beside = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    const panel = vscode.window.createWebviewPanel(viewType, title, beside, pageOptions);
    await this.#show(panel, { uri, keypads: ids });
  }

  /** A tab that was open when the window was closed. */
  reopen(panel: vscode.WebviewPanel, kept: unknown): void {
    const of = previewOf(kept);
    panel.webview.options = pageOptions;
    // Not waited for: VS Code shows the page when this returns, and until then it takes no message.
    if (of) void this.#show(panel, of).catch(() => {});
    else panel.dispose();
  }

  #show(panel: vscode.WebviewPanel, of: PreviewOf): Promise<void> {
    const key = keyOf(of);
    panel.iconPath = this.#icon;
    const preview = this.#follow(panel, of);
    this.#open.set(key, preview);
    panel.onDidDispose(() => this.#open.delete(key));
    return preview.draw();
  }

  #follow(panel: vscode.WebviewPanel, of: PreviewOf): Preview {
    const { uri, keypads } = of;
    const say = (message: ToPage) => panel.webview.postMessage(message);
    let latest: PreviewResult | undefined;
    let asked = 0;
    const show = (result: PreviewResult) =>
      say({
        of,
        sheets: result.sheets.map(({ keypad, html }) => ({ keypad, html })),
        style: result.style,
        held: result.held.flatMap(({ label, reasons }) => reasons.map(reason => `${label}: ${reason}`)),
      });
    const draw = async () => {
      const mine = ++asked;
      const hideCodes = vscode.workspace.getConfiguration("mullion", vscode.Uri.parse(uri)).get("maskCodes", false);
      const result = await this.#ask("mullion/preview", { uri, keypads, hideCodes });
      // The text went on meanwhile: what is asked for later is newer.
      if (mine !== asked) return;
      latest = result;
      await show(result);
    };
    panel.webview.onDidReceiveMessage(async (message: FromPage) => {
      // A page that was hidden begins anew when it is shown.
      if (message === "listening") await (latest && show(latest));
      else if (message === "export")
        await vscode.commands.executeCommand("mullion.exportSheet", uri, ...(keypads.length === 1 ? keypads : []));
      else await goTo(placeOf(latest, message.go));
    });
    panel.webview.html = emptyPage();
    return { panel, draw, follow: editor => void say({ here: entryAt(latest, editor) ?? null }) };
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

function keyOf({ uri, keypads }: PreviewOf): string {
  return [uri, ...keypads].join("\n");
}

function placeOf(result: PreviewResult | undefined, { keypad, n }: EntryNamed): EntryPlace | undefined {
  return result?.sheets.find(sheet => sheet.keypad === keypad)?.entries.find(entry => entry.n === n);
}

/** The entry whose place the cursor is in, else the first of the cursor's line. */
function entryAt(result: PreviewResult | undefined, { document, selection }: vscode.TextEditor): EntryNamed | undefined {
  const uri = document.uri.toString();
  const cursor = selection.active;
  let onLine: EntryNamed | undefined;
  for (const { keypad, entries } of result?.sheets ?? [])
    for (const entry of entries) {
      if (entry.uri !== uri || cursor.line < entry.start.line || cursor.line > entry.end.line) continue;
      if (rangeOf(entry).contains(cursor)) return { keypad, n: entry.n };
      onLine ??= { keypad, n: entry.n };
    }
  return onLine;
}

async function goTo(place: EntryPlace | undefined): Promise<void> {
  if (!place) return;
  const uri = vscode.Uri.parse(place.uri);
  const open = vscode.window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri.toString());
  const column = open?.viewColumn ?? vscode.ViewColumn.One;
  await vscode.window.showTextDocument(uri, { viewColumn: column, selection: rangeOf(place) });
}

function rangeOf({ start, end }: EntryPlace): vscode.Range {
  return new vscode.Range(start.line, start.character, end.line, end.character);
}
