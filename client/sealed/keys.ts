/** What opens sealed files: asked of the user, kept in the editor's secret storage, and given to the server each time it starts. */
import * as vscode from "vscode";
import type { Secret } from "../../shared/requests.ts";
import type { Mullion } from "../mullion.ts";

const storedAs = "mullion.secrets";

export class Keys {
  readonly #secrets: vscode.SecretStorage;
  readonly #ask: Mullion["ask"];
  readonly #changed = new vscode.EventEmitter<void>();
  readonly onDidChange = this.#changed.event;
  /** Settled once the server that is running has what is stored. */
  given: Promise<void> = Promise.resolve();

  constructor(secrets: vscode.SecretStorage, ask: Mullion["ask"]) {
    this.#secrets = secrets;
    this.#ask = ask;
  }

  /** To a server that has just started and knows nothing. */
  give(): void {
    this.given = this.#stored()
      .then(async secrets => {
        if (secrets.length === 0) return;
        await this.#ask("mullion/unlock", { secrets });
        this.#changed.fire();
      })
      .catch(() => {});
  }

  /**
   * Takes one more identity or passphrase, asked for where it did not come along.
   *
   * @returns whether there is one more
   * @throws where it is none
   */
  async unlock(given?: Secret): Promise<boolean> {
    const secret = given ?? (await askSecret());
    if (!secret) return false;
    const secrets = [...(await this.#stored()), secret];
    let { refused, needsPassphrase } = await this.#ask("mullion/unlock", { secrets });
    if (needsPassphrase) {
      const passphrase = await typed("The passphrase of the identity file");
      if (passphrase === undefined) return this.#again();
      secrets[secrets.length - 1] = { ...secret, passphrase };
      ({ refused } = await this.#ask("mullion/unlock", { secrets }));
    }
    if (refused !== undefined) {
      await this.#again();
      throw new Error(`${refused}.`);
    }
    await this.#secrets.store(storedAs, JSON.stringify(secrets));
    this.#changed.fire();
    return true;
  }

  async lock(): Promise<void> {
    await this.#secrets.delete(storedAs);
    await this.#ask("mullion/unlock", { secrets: [] });
    this.#changed.fire();
  }

  dispose(): void {
    this.#changed.dispose();
  }

  /** What was tried and does not hold is taken back. */
  async #again(): Promise<false> {
    await this.#ask("mullion/unlock", { secrets: await this.#stored() });
    return false;
  }

  async #stored(): Promise<readonly Secret[]> {
    const text = await this.#secrets.get(storedAs);
    return text === undefined ? [] : (JSON.parse(text) as Secret[]);
  }
}

async function askSecret(): Promise<Secret | undefined> {
  const file = { label: "Identity file …", description: "as mullion keys new writes it" };
  const pasted = { label: "Identity", description: "begins with AGE-SECRET-KEY-1" };
  const passphrase = { label: "Passphrase", description: "for files that were sealed with one" };
  const chosen = await vscode.window.showQuickPick([file, pasted, passphrase], { placeHolder: "What opens the sealed files?" });
  if (chosen === file) {
    const [at] = (await vscode.window.showOpenDialog({ title: "Identity file", openLabel: "Use" })) ?? [];
    if (!at) return undefined;
    const bytes = await vscode.workspace.fs.readFile(at);
    return { identities: new TextDecoder("latin1").decode(bytes) };
  }
  if (chosen === pasted) {
    const identities = await typed("The identity");
    return identities === undefined ? undefined : { identities };
  }
  if (chosen !== passphrase) return undefined;
  const word = await typed("The passphrase");
  return word === undefined ? undefined : { passphrase: word };
}

async function typed(prompt: string): Promise<string | undefined> {
  const text = await vscode.window.showInputBox({ prompt, password: true, ignoreFocusOut: true });
  return text === undefined || text.trim() === "" ? undefined : text;
}
