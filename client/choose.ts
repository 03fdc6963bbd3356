/** Which site and which keypad a command is about, when it was started without saying so. */
import * as vscode from "vscode";
import type { WaitingKeypad } from "../shared/requests.ts";
import type { Mullion } from "./mullion.ts";

/** The file in the active editor. @throws when that is no Mullion text */
export function activeFile(): string {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId !== "mullion") throw new Error("open a site's file first.");
  return document.uri.toString();
}

/**
 * The keypads of the site that `uri` belongs to: the one named `id`, the only one, or those that the user picks.
 * Undefined where the user picks nothing. @throws when the site has no keypad
 */
export async function chooseKeypads(mullion: Mullion, uri: string, id?: string): Promise<readonly WaitingKeypad[] | undefined> {
  const { keypads } = await mullion.ask("mullion/waiting", { uri });
  if (keypads.length === 0) throw new Error("no keypad stands in this site yet.");
  if (id !== undefined) return keypads.filter(keypad => keypad.keypad === id);
  if (keypads.length === 1) return keypads;
  const all = { label: "All keypads", keypads };
  const each = keypads.map(keypad => ({ label: keypad.label, description: toType(keypad), keypads: [keypad] }));
  return (await vscode.window.showQuickPick([all, ...each], { placeHolder: "Which keypad?" }))?.keypads;
}

/** "7 entries to type", in words that fit behind a keypad's label. */
export function toType({ entries }: WaitingKeypad): string {
  if (entries === undefined) return "held back by errors";
  if (entries === 0) return "nothing to type";
  return entries === 1 ? "1 entry to type" : `${entries} entries to type`;
}
