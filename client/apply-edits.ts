/** Edits that the server worked out, made in the editor and saved. */
import * as vscode from "vscode";
import type { EditsResult } from "../shared/requests.ts";

/** @throws what the server says where nothing can be done, and where the edits cannot be made */
export async function applyEdits({ edits, refused }: EditsResult, save: boolean): Promise<void> {
  if (refused !== undefined) throw new Error(`${refused}.`);
  const change = new vscode.WorkspaceEdit();
  for (const { uri, create, changes } of edits) {
    const target = vscode.Uri.parse(uri);
    if (create) change.createFile(target, { ignoreIfExists: true });
    for (const { start, end, text } of changes) {
      change.replace(target, new vscode.Range(start.line, start.character, end.line, end.character), text);
    }
  }
  if (!(await vscode.workspace.applyEdit(change))) throw new Error("the text could not be changed.");
  if (!save) return;
  for (const { uri } of edits) {
    const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
    if (document.isDirty && !(await document.save()))
      throw new Error(`${vscode.workspace.asRelativePath(document.uri)} could not be saved.`);
  }
}
