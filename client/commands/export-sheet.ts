/** Writes run sheets beside the site's file and answers with where they are. */
import * as vscode from "vscode";
import type { SheetFormat } from "../../shared/requests.ts";
import { activeFile, chooseKeypads } from "../choose.ts";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const exportSheet: Command = {
  id: "mullion.exportSheet",
  async run(mullion, file, keypad) {
    const uri = text(file) ?? activeFile();
    const chosen = await chooseKeypads(mullion, uri, text(keypad));
    if (!chosen) return [];
    const settings = vscode.workspace.getConfiguration("mullion", vscode.Uri.parse(uri));
    const format = settings.get<SheetFormat>("sheetFormat", "md");
    const sheet = await mullion.ask("mullion/sheet", { uri, keypads: chosen.map(one => one.keypad), format });

    const folder = vscode.Uri.joinPath(vscode.Uri.parse(sheet.uri), "..");
    const written: vscode.Uri[] = [];
    for (const { name, content } of sheet.files) {
      const target = vscode.Uri.joinPath(folder, name);
      await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(content));
      written.push(target);
    }
    if (sheet.held.length > 0)
      throw new Error(`no sheet for ${sheet.held.map(held => `${held.label} (${held.reasons.join("; ")})`).join(", ")}.`);
    vscode.window.setStatusBarMessage(`Written: ${sheet.files.map(one => one.name).join(", ")}`, 8000);
    return written.map(one => one.toString());
  },
};
