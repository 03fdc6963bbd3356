/** The user's settings for a file, asked of the client once and again only when they change. */
import type { Connection } from "vscode-languageserver";
import type { Settings } from "../../shared/requests.ts";

const unsaid: Settings = { inlayHints: "unfitted", maskCodes: false };

export class EditorSettings {
  readonly #connection: Connection;
  readonly #known = new Map<string, Promise<Settings>>();
  /** For clients that cannot be asked: what they sent of their own accord. */
  #sent: Settings = unsaid;
  canAsk = false;

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  of(uri: string): Promise<Settings> {
    if (!this.canAsk) return Promise.resolve(this.#sent);
    const known = this.#known.get(uri) ?? this.#ask(uri);
    this.#known.set(uri, known);
    return known;
  }

  /** @param sent the whole settings of the client, or nothing when it wants to be asked */
  changed(sent: unknown): void {
    this.#known.clear();
    if (sent && typeof sent === "object" && "mullion" in sent) this.#sent = settingsFrom(sent.mullion);
  }

  forget(uri: string): void {
    this.#known.delete(uri);
  }

  async #ask(uri: string): Promise<Settings> {
    try {
      return settingsFrom(await this.#connection.workspace.getConfiguration({ scopeUri: uri, section: "mullion" }));
    } catch {
      // Nobody can say whether codes may be shown: they are not.
      return { ...unsaid, maskCodes: true };
    }
  }
}

function settingsFrom(value: unknown): Settings {
  const said: Partial<Record<keyof Settings, unknown>> = value && typeof value === "object" ? value : {};
  const hints = (["off", "on", "unfitted"] as const).find(each => each === said.inlayHints);
  return { inlayHints: hints ?? unsaid.inlayHints, maskCodes: said.maskCodes === true };
}
