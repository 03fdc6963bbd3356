/** One thing that the editor can do with Mullion texts: what the client is told of it, and its handlers. */
import type { ClientCapabilities, Connection, ServerCapabilities } from "vscode-languageserver";
import type { Workspace } from "../workspace.ts";

export interface Feature {
  readonly capability: ServerCapabilities | ((client: ClientCapabilities) => ServerCapabilities);
  register(connection: Connection, workspace: Workspace): void;
}
