/** The status item: how many entries of the site in the active editor wait to be typed at its keypads. */
import * as vscode from "vscode";
import { toType } from "./choose.ts";
import { later } from "./later.ts";
import type { Mullion } from "./mullion.ts";

/** Milliseconds of no typing after which it is counted again. */
const pauseMs = 400;

export function showWaiting(mullion: Mullion): vscode.Disposable {
  const item = vscode.window.createStatusBarItem("mullion.waiting", vscode.StatusBarAlignment.Left, 10);
  item.name = "Entries to type";
  item.command = "mullion.previewSheet";

  async function count() {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId !== "mullion") return item.hide();
    const { keypads } = await mullion.ask("mullion/waiting", { uri: document.uri.toString() });
    if (keypads.length === 0) return item.hide();
    const entries = keypads.reduce((sum, keypad) => sum + (keypad.entries ?? 0), 0);
    item.text = `$(checklist) ${entries} to type`;
    item.tooltip = keypads.map(keypad => `${keypad.label}: ${toType(keypad)}`).join("\n");
    item.accessibilityInformation = { label: `${entries} entries to type` };
    item.show();
  }
  const soon = later(pauseMs, () => void count().catch(() => item.hide()));
  void count().catch(() => item.hide());
  return vscode.Disposable.from(
    item,
    soon,
    vscode.window.onDidChangeActiveTextEditor(soon),
    vscode.workspace.onDidSaveTextDocument(soon),
    vscode.workspace.onDidChangeTextDocument(change => change.document.languageId === "mullion" && soon()),
  );
}
