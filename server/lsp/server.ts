/** The language server on any connection: what it can do, which documents are in step, what has changed. Free of Node and of any browser. */
import type {
  Connection,
  DidChangeTextDocumentParams,
  DidChangeWatchedFilesParams,
  DidCloseTextDocumentParams,
  DidOpenTextDocumentParams,
  InitializeParams,
  InitializeResult,
  ServerCapabilities,
} from "vscode-languageserver";
import {
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  ErrorCodes,
  PositionEncodingKind,
  ResponseError,
  TextDocumentSyncKind,
  WatchKind,
} from "vscode-languageserver";
import { withClient } from "./client-host.ts";
import { features } from "./features/index.ts";
import type { Host } from "./host.ts";
import { isShaped } from "./shaped.ts";
import { Workspace } from "./workspace.ts";

/** Serves Mullion on this connection, which is listened to from here on. */
export function serve(connection: Connection, host: Host): Workspace {
  const workspace = new Workspace(connection, withClient(connection, host));
  let [isIntroduced, isReady] = [false, false];
  connection.onInitialize(params => {
    // A second one would undo what the first has agreed on.
    if (isIntroduced) return new ResponseError<never>(ErrorCodes.InvalidRequest, "the server has been initialized already");
    isIntroduced = true;
    return initialize(connection, workspace, params);
  });
  connection.onInitialized(() => {
    if (!isReady) initialized(connection, workspace);
    isReady = true;
  });
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
      { globPattern: "**/*.{mullion,mullion.age,names}" },
      // A folder that goes or comes is told of as one, without the files in it.
      { globPattern: "**/*", kind: WatchKind.Create | WatchKind.Delete },
    ];
    connection.client.register(DidChangeWatchedFilesNotification.type, { watchers }).catch(refused);
  }
  if (client.workspace?.didChangeConfiguration?.dynamicRegistration)
    connection.client.register(DidChangeConfigurationNotification.type, { section: "mullion" }).catch(refused);
  if (client.workspace?.workspaceFolders)
    connection.workspace.onDidChangeWorkspaceFolders(event => {
      if (!isShaped({ event }, "event")) return;
      workspace.removeFolders(event.removed);
      workspace.addFolders(event.added);
    });
  workspace.addFolders(workspace.firstFolders);
}

function keepInStep(connection: Connection, workspace: Workspace): void {
  /** What a client tells, passed over with a word in the log where it is not of its shape: a text that is none would be met again and again. */
  const heard = <P>(what: string, needed: readonly string[], take: (params: P) => void): ((params: P) => void) => {
    return params => {
      if (isShaped(params, ...needed)) take(params);
      else connection.console.warn(`${what} was passed over: it is not of the shape that the protocol gives it`);
    };
  };
  connection.onDidOpenTextDocument(
    heard("an opened document", ["textDocument"], ({ textDocument: { uri, languageId, version, text } }: DidOpenTextDocumentParams) => {
      if (typeof text === "string") workspace.opened(uri, languageId, version, text);
    }),
  );
  connection.onDidChangeTextDocument(
    heard("typing", ["textDocument", "contentChanges"], ({ textDocument, contentChanges }: DidChangeTextDocumentParams) =>
      workspace.typed(textDocument.uri, contentChanges, textDocument.version),
    ),
  );
  connection.onDidCloseTextDocument(
    heard("a closed document", ["textDocument"], ({ textDocument }: DidCloseTextDocumentParams) => workspace.closed(textDocument.uri)),
  );
  connection.onDidChangeWatchedFiles(
    heard("a change of files", ["changes"], ({ changes }: DidChangeWatchedFilesParams) => workspace.filesChanged(changes)),
  );
  connection.onDidChangeConfiguration(params => {
    workspace.settings.changed(params?.settings);
    workspace.settingsChanged();
  });
}
