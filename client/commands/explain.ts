/** Shows the full explanation of a finding: the one named, or one of the file's that the user picks. */
import * as vscode from "vscode";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const explain: Command = {
  id: "mullion.explain",
  async run(mullion, named) {
    const code = text(named) ?? (await pick());
    if (code === undefined) return;
    const { markdown } = await mullion.ask("mullion/explain", { code });
    if (markdown === undefined) throw new Error(`there is no finding named ${code}.`);
    await mullion.papers.show(code, markdown);
  },
};

/** The findings of the active file by name, those at the cursor first. */
async function pick(): Promise<string | undefined> {
  const editor = vscode.window.activeTextEditor;
  const found = editor ? vscode.languages.getDiagnostics(editor.document.uri).filter(one => one.source === "mullion") : [];
  if (!editor || found.length === 0) throw new Error("this file has no finding to explain.");
  const here = editor.selection.active;
  const sorted = [...found].sort((a, b) => Number(b.range.contains(here)) - Number(a.range.contains(here)));
  const names = new Set(sorted.map(nameOf));
  return names.size === 1 ? [...names][0] : vscode.window.showQuickPick([...names], { placeHolder: "Which finding?" });
}

function nameOf({ code }: vscode.Diagnostic): string {
  return String(typeof code === "object" ? code.value : code);
}
