/** Draws a new code for a holder and puts it into the text; nothing is saved, so that it can be looked at and taken back. */
import * as vscode from "vscode";
import { applyEdits } from "../apply-edits.ts";
import { activeFile } from "../choose.ts";
import { chooseHolder } from "../choose-holder.ts";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const drawCode: Command = {
  id: "mullion.drawCode",
  async run(mullion, file, id, name) {
    const uri = text(file) ?? activeFile();
    // A quick fix may name a holder that another file declares.
    const holder = text(id) ?? (await chooseHolder(vscode.Uri.parse(uri), undefined, "Whose code?"))?.id;
    if (holder === undefined) return;
    const named = text(name);
    await applyEdits(await mullion.ask("mullion/draw", { uri, holder, ...(named === undefined ? {} : { name: named }) }), false);
  },
};
