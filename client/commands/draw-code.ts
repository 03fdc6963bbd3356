/** Draws a new code for a holder and puts it into the text; nothing is saved, so that it can be looked at and taken back. */
import * as vscode from "vscode";
import { applyEdits } from "../apply-edits.ts";
import { activeFile } from "../choose.ts";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const drawCode: Command = {
  id: "mullion.drawCode",
  async run(mullion, file, id, name) {
    const uri = text(file) ?? activeFile();
    const holder = text(id) ?? (await chooseHolder(uri));
    if (holder === undefined) return;
    const named = text(name);
    await applyEdits(await mullion.ask("mullion/draw", { uri, holder, ...(named === undefined ? {} : { name: named }) }), false);
  },
};

/** The holders that the file declares, as the outline has them. */
async function chooseHolder(uri: string): Promise<string | undefined> {
  const symbols = await vscode.commands.executeCommand<vscode.DocumentSymbol[] | undefined>(
    "vscode.executeDocumentSymbolProvider",
    vscode.Uri.parse(uri),
  );
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
  const holders = (symbols ?? []).flatMap(({ range }) => {
    const [, id, label] = /^holder\s+([A-Za-z][\w-]*)\s+"((?:[^"\\]|\\.)*)"/.exec(document.getText(range)) ?? [];
    return id === undefined ? [] : [{ label: label ?? id, description: id, id }];
  });
  if (holders.length === 0) throw new Error("this file declares no holder.");
  return (await vscode.window.showQuickPick(holders, { placeHolder: "Whose code?" }))?.id;
}
