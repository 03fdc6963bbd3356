/** Writes the files of a new site into a folder of the workspace and opens the first of them. */
import * as vscode from "vscode";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const newSite: Command = {
  id: "mullion.newSite",
  async run(mullion, named, into) {
    const folder = text(into) === undefined ? await chooseFolder() : vscode.Uri.parse(text(into) ?? "");
    if (!folder) return [];
    const name = text(named) ?? (await vscode.window.showInputBox({ prompt: "What is the site called?", placeHolder: "Heron Quay" }));
    if (name === undefined || name.trim() === "") return [];
    const { files } = await mullion.ask("mullion/newSite", { name });
    const targets = files.map(({ name: path, content }) => ({ uri: vscode.Uri.joinPath(folder, path), content }));
    for (const { uri } of targets) {
      if (await isThere(uri)) throw new Error(`${vscode.workspace.asRelativePath(uri)} is there already.`);
    }
    for (const { uri, content } of targets) await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(content));
    const [first] = targets;
    if (first) await vscode.window.showTextDocument(first.uri);
    return targets.map(({ uri }) => uri.toString());
  },
};

async function chooseFolder(): Promise<vscode.Uri | undefined> {
  const folders = vscode.workspace.workspaceFolders ?? [];
  if (folders.length === 0) throw new Error("open a folder first; the site's files are written into it.");
  return folders.length === 1 ? folders[0]?.uri : (await vscode.window.showWorkspaceFolderPick())?.uri;
}

async function isThere(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
