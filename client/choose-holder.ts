/** Which holder a command is about: those that a file declares, as the outline has them. */
import * as vscode from "vscode";

export interface ChosenHolder {
  readonly id: string;
  readonly label: string;
  readonly range: vscode.Range;
}

/** The holders of a file. @throws where it declares none */
export async function holdersOf(uri: vscode.Uri): Promise<readonly ChosenHolder[]> {
  const symbols = await vscode.commands.executeCommand<vscode.DocumentSymbol[] | undefined>("vscode.executeDocumentSymbolProvider", uri);
  const document = await vscode.workspace.openTextDocument(uri);
  const holders = (symbols ?? []).flatMap(({ range }) => {
    const [, id, label] = /^holder\s+([A-Za-z][\w-]*)\s+"((?:[^"\\]|\\.)*)"/.exec(document.getText(range)) ?? [];
    return id === undefined ? [] : [{ id, label: label ?? id, range }];
  });
  if (holders.length === 0) throw new Error("this file declares no holder.");
  return holders;
}

/** The one of that id, or the one that the user picks; undefined where the user picks none. @throws where there is no such holder */
export async function chooseHolder(uri: vscode.Uri, id: string | undefined, question: string): Promise<ChosenHolder | undefined> {
  const holders = await holdersOf(uri);
  if (id !== undefined) {
    const named = holders.find(holder => holder.id === id);
    if (!named) throw new Error(`this file declares no holder ${id}.`);
    return named;
  }
  const items = holders.map(holder => ({ label: holder.label, description: holder.id, holder }));
  return (await vscode.window.showQuickPick(items, { placeHolder: question }))?.holder;
}
