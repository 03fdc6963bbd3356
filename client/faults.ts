/** Mullion's own faults, told in the status of the language: there to be seen, never in the way. */
import * as vscode from "vscode";

export class Faults {
  #item: vscode.LanguageStatusItem | undefined;

  show(message: string): void {
    this.#item ??= vscode.languages.createLanguageStatusItem("mullion.fault", { language: "mullion" });
    this.#item.name = "Mullion";
    this.#item.text = message;
    this.#item.severity = vscode.LanguageStatusSeverity.Warning;
  }

  dispose(): void {
    this.#item?.dispose();
  }
}
