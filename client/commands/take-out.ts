/** Takes a holder who leaves out of every keypad of the text; nothing is saved, so that it can be looked at and taken back. */
import * as vscode from "vscode";
import { activeFile } from "../choose.ts";
import { chooseHolder } from "../choose-holder.ts";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const takeOut: Command = {
  id: "mullion.takeOut",
  async run(_mullion, file, id) {
    const uri = vscode.Uri.parse(text(file) ?? activeFile());
    const holder = await chooseHolder(uri, text(id), "Who leaves?");
    if (!holder) return;
    const start = new vscode.Range(holder.range.start, holder.range.start);
    const kind = vscode.CodeActionKind.Refactor.value;
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>("vscode.executeCodeActionProvider", uri, start, kind);
    const edit = actions.find(action => action.edit)?.edit;
    if (!edit) throw new Error(`${holder.label} is on no keypad.`);
    if (!(await vscode.workspace.applyEdit(edit))) throw new Error("the text could not be changed.");
    vscode.window.setStatusBarMessage(`${holder.label} is out of every keypad in the text; it opens until that has been typed`, 8000);
  },
};
