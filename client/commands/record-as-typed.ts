/** Writes into the fitted record what was typed at one keypad: all of the sheet, or some of its entries. */
import * as vscode from "vscode";
import { applyEdits } from "../apply-edits.ts";
import { activeFile, chooseKeypads } from "../choose.ts";
import type { Command } from "./command.ts";
import { text } from "./command.ts";

export const recordAsTyped: Command = {
  id: "mullion.recordAsTyped",
  /** @returns how many entries were taken into the record */
  async run(mullion, file, id, taken, doubtful) {
    const uri = text(file) ?? activeFile();
    const [keypad, ...more] = (await chooseKeypads(mullion, uri, text(id))) ?? [];
    if (!keypad) return 0;
    if (more.length > 0) throw new Error("entries are numbered by keypad: record one at a time.");
    const asked: Asked | undefined =
      text(taken) === undefined ? await askTaken(keypad.label, keypad.entries) : { done: text(taken) ?? "", doubt: text(doubtful) };
    if (!asked) return 0;
    const { done, doubt, sheet, replaced = false } = asked;
    if (keypad.entries === 0 && !replaced && !sheet) throw new Error(`nothing waits to be typed at ${keypad.label}.`);
    const ask = (number: string | undefined) =>
      mullion.ask("mullion/record", {
        uri,
        keypad: keypad.keypad,
        done,
        ...(doubt ? { doubt } : {}),
        ...(number ? { sheet: number } : {}),
        date: today(),
        replaced,
      });
    let answer = await ask(sheet);
    if (answer.otherSheet) {
      if (!(await isMeantAnyway(keypad.label))) return 0;
      answer = await ask(undefined);
    }
    await applyEdits(answer, true);
    vscode.window.setStatusBarMessage(`${keypad.label}: ${answer.recorded} recorded`, 8000);
    return answer.recorded;
  },
};

interface Asked {
  readonly done: string;
  readonly doubt?: string | undefined;
  /** The number at the head of the sheet; empty where nobody has it at hand. */
  readonly sheet?: string | undefined;
  /** The keypad was swapped for a new one. */
  readonly replaced?: boolean;
}

/** A sheet that the command line wrote in a repository has a number that only the command line can check: the editor starts no git. */
async function isMeantAnyway(label: string): Promise<boolean> {
  const detail =
    "A sheet that the command line wrote in a git repository is compared by mullion record. Recorded here, the entries are those that text and record give now.";
  const record = "Record Anyway";
  const message = `Text and record now give another sheet of ${label} than the one with this number.`;
  return (await vscode.window.showWarningMessage(message, { modal: true, detail }, record)) === record;
}

async function askTaken(label: string, entries: number | undefined): Promise<Asked | undefined> {
  const asked = await askEntries(label, entries);
  if (!asked) return undefined;
  const sheet = await vscode.window.showInputBox({
    prompt: "The number at the head of the sheet that was typed from (left empty, nothing is compared)",
    placeHolder: "7K3-Q9M",
    validateInput: typed =>
      /^(?:[0-9A-Za-z]{3}[\s-]*[0-9A-Za-z]{3})?$/.test(typed.trim()) ? undefined : "Six letters and digits, as on the sheet: 7K3-Q9M",
  });
  return sheet === undefined ? undefined : { ...asked, sheet: sheet.trim() };
}

async function askEntries(label: string, entries: number | undefined): Promise<Asked | undefined> {
  const all = { label: "All of them", description: entries === undefined ? "" : `${entries} on the sheet` };
  const some = { label: "Some of them …" };
  const swapped = { label: "All of them, on a new keypad", description: "the sheet started from factory" };
  // Where nothing waits, a keypad that was swapped is what is left to record.
  const choices = entries === 0 ? [swapped] : [all, some, swapped];
  const chosen = await vscode.window.showQuickPick(choices, { placeHolder: `Which entries did the keypad at ${label} take?` });
  if (!chosen) return undefined;
  if (chosen === all) return { done: "all" };
  if (chosen === swapped) return { done: "all", replaced: true };
  const validateInput = (typed: string) => (/^[\d\s,-]*$/.test(typed) ? undefined : "Numbers of entries as on the sheet: 1-6,8");
  const done = await vscode.window.showInputBox({
    prompt: "Entries that were taken, by their numbers on the sheet",
    placeHolder: "1-6,8",
    validateInput,
  });
  if (done === undefined) return undefined;
  const doubt = await vscode.window.showInputBox({
    prompt: "Entries that nobody is sure of (may be left empty)",
    placeHolder: "7",
    validateInput,
  });
  return doubt === undefined ? undefined : { done, doubt };
}

/** The day by the local clock, YYYY-MM-DD. */
function today(): string {
  const now = new Date();
  const two = (part: number) => String(part).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
