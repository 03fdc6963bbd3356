/** What the suites ask of VS Code, each in one place. Knows neither Node nor a browser. */
import * as vscode from "vscode";
import type { Mullion } from "../../../../client/mullion.ts";
import { must } from "../../../../shared/must.ts";

export function extension(): vscode.Extension<Mullion> {
  const found = vscode.extensions.getExtension<Mullion>("mullion-dev.mullion");
  must(found !== undefined, "the extension is installed");
  return found;
}

/** A file of the opened folder; of the folder named `folder` where several are open. */
export function file(path: string, folder?: string): vscode.Uri {
  const folders = vscode.workspace.workspaceFolders ?? [];
  const root = folder === undefined ? folders[0] : folders.find(one => one.name === folder);
  must(root !== undefined, "a folder is open");
  return vscode.Uri.joinPath(root.uri, path);
}

export async function open(uri: vscode.Uri): Promise<vscode.TextEditor> {
  return vscode.window.showTextDocument(await vscode.workspace.openTextDocument(uri), { preview: false });
}

/** Opens a file for `work` and puts it back as it was, whatever has become of it. */
export async function borrow(uri: vscode.Uri, work: (editor: vscode.TextEditor) => Promise<void>): Promise<void> {
  const editor = await open(uri);
  try {
    await work(editor);
  } finally {
    await open(uri);
    await vscode.commands.executeCommand("workbench.action.files.revert");
  }
}

/** Waits until `look` finds something, asking again every 50 ms. @throws with what was awaited after `ms` milliseconds */
export async function until<T>(what: string, look: () => T | Thenable<T>, ms = 10_000): Promise<Exclude<NonNullable<T>, false>> {
  const end = Date.now() + ms;
  for (;;) {
    const found = await look();
    if (found) return found as Exclude<NonNullable<T>, false>;
    if (Date.now() > end) throw new Error(`waited ${ms / 1000} s in vain for ${what}`);
    await new Promise(resolve => setTimeout(resolve, 50));
  }
}

/** The names of the findings in a file, in the order of the text. */
export function findings(uri: vscode.Uri): string[] {
  const ours = vscode.languages.getDiagnostics(uri).filter(one => one.source === "mullion");
  const sorted = ours.sort((a, b) => a.range.start.compareTo(b.range.start));
  return sorted.map(one => String(typeof one.code === "object" ? one.code.value : one.code));
}

/** Waits until exactly these findings are shown. */
export async function expectFindings(uri: vscode.Uri, expected: readonly string[]): Promise<void> {
  const wanted = [...expected].sort().join(" ");
  const same = () => [...findings(uri)].sort().join(" ") === wanted;
  await until(`${vscode.workspace.asRelativePath(uri)}: [${wanted}]`, same).catch(error => {
    throw new Error(`${error.message}; shown are [${findings(uri).join(" ")}]`);
  });
}

/** The place of the first `needle` in a document; `into` characters into it. */
export function at(document: vscode.TextDocument, needle: string, into = 0): vscode.Position {
  const offset = document.getText().indexOf(needle);
  must(offset >= 0, "the text has what is looked for");
  return document.positionAt(offset + into);
}

/** Replaces the first `needle` in a document by `text`. */
export async function replace({ document }: vscode.TextEditor, needle: string, text: string): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  edit.replace(document.uri, new vscode.Range(at(document, needle), at(document, needle, needle.length)), text);
  must(await vscode.workspace.applyEdit(edit), "the edit is taken");
}

/** The text of a hover, all its parts together. */
export async function hoverText(document: vscode.TextDocument, position: vscode.Position): Promise<string> {
  const hovers = await vscode.commands.executeCommand<vscode.Hover[]>("vscode.executeHoverProvider", document.uri, position);
  const parts = hovers.flatMap(hover => hover.contents);
  return parts.map(part => (typeof part === "string" ? part : part.value)).join("\n");
}

/** Sets one of the extension's settings for the workspace; undefined takes it back. */
export async function set(setting: string, value: unknown): Promise<void> {
  await vscode.workspace.getConfiguration("mullion").update(setting, value, vscode.ConfigurationTarget.Workspace);
}

export async function textOf(uri: vscode.Uri): Promise<string> {
  return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
}
