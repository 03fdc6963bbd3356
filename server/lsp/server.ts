/** The language server on any connection: what it can do, which documents are in step, what has changed. Free of Node and of any browser. */
import type { Connection, InitializeParams, InitializeResult, ServerCapabilities } from "vscode-languageserver";
import {
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  PositionEncodingKind,
  TextDocumentSyncKind,
  WatchKind,
} from "vscode-languageserver";
import { withClient } from "./client-host.ts";
import { features } from "./features/index.ts";
import type { Host } from "./host.ts";
import { Workspace } from "./workspace.ts";

/** Serves Mullion on this connection, which is listened to from here on. */
export function serve(connection: Connection, host: Host): Workspace {
  const workspace = new Workspace(connection, withClient(connection, host));
  connection.onInitialize(params => initialize(connection, workspace, params));
  connection.onInitialized(() => initialized(connection, workspace));
  keepInStep(connection, workspace);
  connection.onShutdown(() => workspace.dispose());
  connection.listen();
  return workspace;
}

function initialize(connection: Connection, workspace: Workspace, params: InitializeParams): InitializeResult {
  workspace.introduce(params);
  const capabilities: ServerCapabilities = {
    positionEncoding: PositionEncodingKind.UTF16,
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: false },
    workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
  };
  for (const feature of features) {
    fold(capabilities, typeof feature.capability === "function" ? feature.capability(params.capabilities) : feature.capability);
    feature.register(connection, workspace);
  }
  return { capabilities, serverInfo: { name: "mullion" } };
}

/** Adds what one feature can do; `workspace` is shared by several. */
function fold(all: ServerCapabilities, one: ServerCapabilities): void {
  Object.assign(all, { ...one, workspace: { ...all.workspace, ...one.workspace } });
}

/** A client that refuses, or that has gone meanwhile, tells nothing more of its own accord; what it does tell is heard all the same. */
function refused(): void {}

function initialized(connection: Connection, workspace: Workspace): void {
  const { client } = workspace;
  const changes = client.workspace?.didChangeWatchedFiles;
  if (changes?.dynamicRegistration) {
    const watchers = [
      { globPattern: "**/*.mullion" },
      // A folder that goes or comes is told of as one, without the files in it.
      { globPattern: "**/*", kind: WatchKind.Create | WatchKind.Delete },
    ];
    connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }).catch(refused);
  }
  if (client.workspace?.didChangeConfiguration?.dynamicRegistration)
    connection.client.register(DidChangeConfigurationNotification.type, { section: "mullion" }).catch(refused);
  if (client.workspace?.workspaceFolders)
    connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
      workspace.removeFolders(removed);
      workspace.addFolders(added);
    });
  workspace.addFolders(workspace.firstFolders);
}

function keepInStep(connection: Connection, workspace: Workspace): void {
  connection.onDidOpenTextDocument(({ textDocument: { uri, languageId, version, text } }) =>
    workspace.opened(uri, languageId, version, text),
  );
  connection.onDidChangeTextDocument(({ textDocument, contentChanges }) =>
    workspace.typed(textDocument.uri, contentChanges, textDocument.version),
  );
  connection.onDidCloseTextDocument(({ textDocument }) => workspace.closed(textDocument.uri));
  connection.onDidChangeWatchedFiles(({ changes }) => workspace.filesChanged(changes));
  connection.onDidChangeConfiguration(({ settings }) => {
    workspace.settings.changed(settings);
    workspace.settingsChanged();
  });
}
