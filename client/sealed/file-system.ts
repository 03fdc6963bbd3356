/** Sealed files as texts: what is shown is opened by the server, what is saved is sealed by it, and only sealed bytes are on disk. */
import * as vscode from "vscode";
import type { Mullion } from "../mullion.ts";
import { inFile, sealedScheme } from "./places.ts";

export class SealedTexts implements vscode.FileSystemProvider {
  readonly #ask: Mullion["ask"];
  readonly #unlocked: () => Promise<void>;
  readonly #changed = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  readonly onDidChangeFile = this.#changed.event;
  readonly #registered = vscode.workspace.registerFileSystemProvider(sealedScheme, this);

  /** @param unlocked settled when the server has what opens the files */
  constructor(ask: Mullion["ask"], unlocked: () => Promise<void>) {
    this.#ask = ask;
    this.#unlocked = unlocked;
  }

  watch(uri: vscode.Uri): vscode.Disposable {
    const file = inFile(uri);
    const name = file.path.slice(file.path.lastIndexOf("/") + 1);
    const watcher = vscode.workspace.createFileSystemWatcher(new vscode.RelativePattern(vscode.Uri.joinPath(file, ".."), name));
    const told = (type: vscode.FileChangeType) => () => this.#changed.fire([{ type, uri }]);
    return vscode.Disposable.from(
      watcher,
      watcher.onDidChange(told(vscode.FileChangeType.Changed)),
      watcher.onDidCreate(told(vscode.FileChangeType.Created)),
      watcher.onDidDelete(told(vscode.FileChangeType.Deleted)),
    );
  }

  stat(uri: vscode.Uri): Thenable<vscode.FileStat> {
    return vscode.workspace.fs.stat(inFile(uri));
  }

  async readFile(uri: vscode.Uri): Promise<Uint8Array> {
    await this.#unlocked();
    const opened = await this.#ask("mullion/unseal", { uri: uri.toString() });
    if ("refused" in opened) throw vscode.FileSystemError.NoPermissions(`${opened.refused}.`);
    return new TextEncoder().encode(opened.text);
  }

  async writeFile(uri: vscode.Uri, content: Uint8Array): Promise<void> {
    await this.#unlocked();
    const text = new TextDecoder("utf-8", { ignoreBOM: true }).decode(content);
    const { refused } = await this.#ask("mullion/reseal", { uri: uri.toString(), text });
    if (refused !== undefined) throw vscode.FileSystemError.NoPermissions(`${refused}.`);
    this.#changed.fire([{ type: vscode.FileChangeType.Changed, uri }]);
  }

  readDirectory(): never {
    throw notHere("lists no folders");
  }
  createDirectory(): never {
    throw notHere("makes no folders");
  }
  delete(): never {
    throw notHere("removes no files");
  }
  rename(): never {
    throw notHere("renames no files");
  }

  dispose(): void {
    this.#registered.dispose();
    this.#changed.dispose();
  }
}

function notHere(what: string): vscode.FileSystemError {
  return vscode.FileSystemError.NoPermissions(`The view of sealed files ${what}: do that with the sealed file itself.`);
}
