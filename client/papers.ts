/** Texts that the server computes and nobody saves: explanations and tables, shown as rendered Markdown. */
import * as vscode from "vscode";

const scheme = "mullion-paper";

export class Papers implements vscode.TextDocumentContentProvider {
  readonly #texts = new Map<string, string>();
  readonly #changed = new vscode.EventEmitter<vscode.Uri>();
  readonly #registered = vscode.workspace.registerTextDocumentContentProvider(scheme, this);
  readonly onDidChange = this.#changed.event;

  provideTextDocumentContent(uri: vscode.Uri): string {
    return this.#texts.get(uri.toString()) ?? "";
  }

  /** Shows `markdown` in a tab named `title`, in the place of what stood there under that title. */
  async show(title: string, markdown: string): Promise<void> {
    const uri = vscode.Uri.from({ scheme, path: `/${title}.md` });
    this.#texts.set(uri.toString(), markdown);
    this.#changed.fire(uri);
    await vscode.commands.executeCommand("markdown.showPreview", uri);
  }

  dispose(): void {
    this.#registered.dispose();
    this.#changed.dispose();
  }
}
