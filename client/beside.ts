/** Files that are written beside a site's file. */
import * as vscode from "vscode";
import type { SheetResult } from "../shared/requests.ts";
import { inFile, sealedScheme } from "./sealed/places.ts";

/**
 * Writes them, says which, and answers with where they are.
 *
 * @throws for what is held back, when the others have been written
 */
export async function writeBeside(result: SheetResult): Promise<readonly string[]> {
  // Beside a sealed text there is nothing to write to; beside its file there is.
  const site = vscode.Uri.parse(result.uri);
  const folder = vscode.Uri.joinPath(site.scheme === sealedScheme ? inFile(site) : site, "..");
  const written: vscode.Uri[] = [];
  for (const { name, content } of result.files) {
    const target = vscode.Uri.joinPath(folder, name);
    await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(content));
    written.push(target);
  }
  if (result.held.length > 0)
    throw new Error(`nothing written for ${result.held.map(held => `${held.label} (${held.reasons.join("; ")})`).join(", ")}.`);
  const names = result.files.map(one => one.name);
  if (names.length > 0) vscode.window.setStatusBarMessage(`Written: ${names.join(", ")}`, 8000);
  return written.map(one => one.toString());
}
