/** Writes run sheets beside the site's file and answers with where they are. */
import * as vscode from "vscode";
import type { SheetFormat } from "../../shared/requests.ts";
import { writeBeside } from "../beside.ts";
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
    const format = settings.get<SheetFormat>("sheetFormat", "html");
    const sheet = await mullion.ask("mullion/sheet", { uri, keypads: chosen.map(one => one.keypad), format });
    return writeBeside(sheet);
  },
};
