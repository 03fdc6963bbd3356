/** A sealed file has two addresses: the file with its sealed bytes, and the view of the text in it. */
import type * as vscode from "vscode";

export const sealedScheme = "mullion-sealed";

export function inView(file: vscode.Uri): vscode.Uri {
  return file.with({ scheme: sealedScheme });
}

export function inFile(view: vscode.Uri): vscode.Uri {
  return view.with({ scheme: "file" });
}
