/** Writes run sheets beside the site's file and answers with where they are. */
import * as vscode from "vscode";
import type { SheetFormat, SheetStart } from "../../shared/requests.ts";
import { writeBeside } from "../beside.ts";
import { activeFile, chooseKeypads } from "../choose.ts";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const exportSheet: Command = {
  id: "mullion.exportSheet",
  async run(mullion, file, keypad, start) {
    const uri = text(file) ?? activeFile();
    const chosen = await chooseKeypads(mullion, uri, text(keypad));
    if (!chosen) return [];
    const from = starts.find(each => each.from === text(start)) ?? (await askStart(chosen.some(keypad => keypad.recorded)));
    if (!from) return [];
    const settings = vscode.workspace.getConfiguration("mullion", vscode.Uri.parse(uri));
    const format = settings.get<SheetFormat>("sheetFormat", "html");
    const sheet = await mullion.ask("mullion/sheet", { uri, keypads: chosen.map(one => one.keypad), from: from.from, format });
    return writeBeside(sheet);
  },
};

const starts: readonly (vscode.QuickPickItem & { readonly from: SheetStart })[] = [
  { from: "fitted", label: "What is fitted", description: "by the record: only what is still to be typed" },
  { from: "factory", label: "Factory", description: "a new keypad, or one that was swapped" },
  { from: "reset", label: "Reset by hand", description: "the steps of the reset, then everything" },
];

/** @param recorded whether there is a record; without one, what is fitted is what left the factory */
function askStart(recorded: boolean): Thenable<(typeof starts)[number] | undefined> {
  const offered = recorded ? starts : starts.filter(({ from }) => from !== "fitted");
  return vscode.window.showQuickPick(offered, { placeHolder: "What does the sheet start from?" });
}
