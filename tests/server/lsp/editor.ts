/** An editor without a screen: the real protocol over a stream in memory, a disk made of a fixture's files, and what is asked of the server in one place each. */
import { randomBytes } from "node:crypto";
import { PassThrough } from "node:stream";
import type { ClientCapabilities, FileChangeType, InitializeResult, ProtocolConnection } from "vscode-languageserver/node";
import {
  createConnection,
  createProtocolConnection,
  DidChangeTextDocumentNotification,
  DidChangeWatchedFilesNotification,
  DidCloseTextDocumentNotification,
  DidOpenTextDocumentNotification,
  InitializedNotification,
  InitializeRequest,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { Host } from "../../../server/lsp/host.ts";
import { serve } from "../../../server/lsp/server.ts";
import { fileIdOf } from "../../../server/lsp/uri.ts";
import type { Workspace } from "../../../server/lsp/workspace.ts";
import type { Fixture } from "../../support/fixture.ts";
import { fixture, tiny, today } from "../../support/fixture.ts";

export const folder = "file:///site";

/** What a modern editor says of itself. */
export const modern: ClientCapabilities = {
  workspace: {
    configuration: true,
    workspaceFolders: true,
    workspaceEdit: { documentChanges: true, resourceOperations: ["create", "rename", "delete"] },
    didChangeWatchedFiles: { dynamicRegistration: true },
    fileOperations: { willRename: true },
  },
  textDocument: {
    diagnostic: { relatedInformation: true, tagSupport: { valueSet: [1, 2] }, codeDescriptionSupport: true, dataSupport: true },
    rename: { prepareSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    hover: { contentFormat: ["markdown", "plaintext"] },
    completion: { completionItem: { snippetSupport: true, documentationFormat: ["markdown"] } },
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix", "source.fixAll"] } },
      isPreferredSupport: true,
      dataSupport: true,
      resolveSupport: { properties: ["edit"] },
    },
  },
};

export interface EditorOptions {
  readonly client?: ClientCapabilities;
  readonly clientName?: string;
  /** Commands that the client says it has. */
  readonly commands?: readonly string[];
  readonly settings?: { readonly maskCodes?: boolean; readonly inlayHints?: "off" | "on" | "unfitted" };
  readonly folders?: readonly string[];
  readonly host?: Partial<Host>;
  /** Called with the client's end before the server hears of anything. */
  readonly before?: (client: ProtocolConnection) => void;
}

export interface Editor {
  readonly client: ProtocolConnection;
  readonly workspace: Workspace;
  readonly server: InitializeResult;
  /** What lies on disk; changed by tests, who then say `touched`. */
  readonly disk: Map<string, string>;
  /** Every line of the server's log. */
  readonly log: string[];
  open(file: string): Promise<string>;
  type(file: string, text: string): Promise<void>;
  close(file: string): Promise<void>;
  touched(files: Iterable<string>, type: FileChangeType): Promise<void>;
  textOf(uri: string): string;
  end(): Promise<void>;
}

/** `/main.mullion` of a fixture is this to the protocol. */
export function uriOf(file: string): string {
  return folder + file;
}

export function fileOf(uri: string): string {
  return uri.startsWith(folder) ? uri.slice(folder.length) : uri;
}

export async function startEditor(files: ReadonlyMap<string, string>, options: EditorOptions = {}): Promise<Editor> {
  const disk = new Map([["/tiny.mullion", tiny], ...files]);
  const there = new PassThrough();
  const back = new PassThrough();
  const server = createConnection(new StreamMessageReader(there), new StreamMessageWriter(back));
  const client = createProtocolConnection(new StreamMessageReader(back), new StreamMessageWriter(there));
  const host: Host = {
    reads: () => true,
    today: () => today,
    random: count => randomBytes(count),
    read: async file => disk.get(fileOf(file)),
    find: async root =>
      [...disk.keys()]
        .map(uriOf)
        .filter(uri => uri.startsWith(`${root}/`) && uri.endsWith(".mullion"))
        .map(fileIdOf),
    ...options.host,
  };
  const log: string[] = [];
  client.onRequest<null, void>("client/registerCapability", () => null);
  client.onRequest<unknown[], void>("workspace/configuration", ({ items }: { items: unknown[] }) =>
    items.map(() => options.settings ?? {}),
  );
  for (const refresh of ["diagnostic", "codeLens", "inlayHint"]) client.onRequest<null, void>(`workspace/${refresh}/refresh`, () => null);
  client.onNotification("window/logMessage", ({ message }: { message: string }) => void log.push(message));
  client.onNotification("window/showMessage", ({ message }: { message: string }) => void log.push(`shown: ${message}`));
  options.before?.(client);
  const workspace = serve(server, host);
  client.listen();
  const answer = await client.sendRequest(InitializeRequest.type, {
    processId: null,
    rootUri: null,
    capabilities: options.client ?? modern,
    ...(options.commands && { initializationOptions: { commands: options.commands } }),
    clientInfo: { name: options.clientName ?? "Visual Studio Code" },
    workspaceFolders: (options.folders ?? [folder]).map(uri => ({ uri, name: uri })),
  });
  await client.sendNotification(InitializedNotification.type, {});
  const texts = new Map<string, string>();
  let version = 1;
  return {
    client,
    workspace,
    server: answer,
    disk,
    log,
    async open(file) {
      const uri = uriOf(file);
      texts.set(uri, disk.get(file) ?? "");
      await client.sendNotification(DidOpenTextDocumentNotification.type, {
        textDocument: { uri, languageId: "mullion", version, text: disk.get(file) ?? "" },
      });
      return uri;
    },
    async type(file, text) {
      texts.set(uriOf(file), text);
      version++;
      const contentChanges = [{ text }];
      await client.sendNotification(DidChangeTextDocumentNotification.type, {
        textDocument: { uri: uriOf(file), version },
        contentChanges,
      });
    },
    async close(file) {
      texts.delete(uriOf(file));
      await client.sendNotification(DidCloseTextDocumentNotification.type, { textDocument: { uri: uriOf(file) } });
    },
    async touched(files, type) {
      const changes = [...files].map(file => ({ uri: uriOf(file), type }));
      await client.sendNotification(DidChangeWatchedFilesNotification.type, { changes });
    },
    textOf: uri => texts.get(uri) ?? disk.get(fileOf(uri)) ?? "",
    async end() {
      await client.sendRequest(ShutdownRequest.type);
      client.end();
      client.dispose();
      server.dispose();
    },
  };
}

/** A fixture open in an editor: all its files on disk, the one with the cursor (or the first) open. */
export interface OpenFixture extends Editor {
  readonly read: Fixture;
  readonly uri: string;
  /** Where `$0` stands. */
  readonly position: { line: number; character: number };
  readonly range: { start: { line: number; character: number }; end: { line: number; character: number } };
}

/** Opens a fixture, does something with it, and closes everything again whatever happens. */
export async function inEditor<T>(text: string, work: (editor: OpenFixture) => Promise<T>, options: EditorOptions = {}): Promise<T> {
  const read = fixture(text);
  const editor = await startEditor(read.files, options);
  try {
    const file = read.cursor?.file ?? read.root;
    const uri = await editor.open(file);
    const document = TextDocument.create(uri, "mullion", 1, read.files.get(file) ?? "");
    const [start, end] = [document.positionAt(read.cursor?.start ?? 0), document.positionAt(read.cursor?.end ?? 0)];
    return await work({ ...editor, read, uri, position: start, range: { start, end } });
  } finally {
    await editor.end();
  }
}

/** Offsets of a protocol range in the text that it speaks of. */
export function offsetsOf(editor: Editor, uri: string, range: OpenFixture["range"]): { file: string; start: number; end: number } {
  const document = TextDocument.create(uri, "mullion", 1, editor.textOf(uri));
  return { file: fileOf(uri), start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
}

/** Every file after a workspace edit, in the fixture's own form. */
export function afterEdits(
  editor: Editor,
  edit: { changes?: Record<string, TextEditLike[]> | undefined; documentChanges?: readonly unknown[] | undefined } | null | undefined,
): ReadonlyMap<string, string> {
  const changed = new Map<string, string>();
  const byUri = new Map<string, TextEditLike[]>(Object.entries(edit?.changes ?? {}));
  for (const change of (edit?.documentChanges ?? []) as { textDocument?: { uri: string }; edits: TextEditLike[] }[])
    if (change.textDocument) byUri.set(change.textDocument.uri, change.edits);
  for (const [uri, edits] of byUri)
    changed.set(fileOf(uri), TextDocument.applyEdits(TextDocument.create(uri, "mullion", 1, editor.textOf(uri)), edits));
  return changed;
}

export interface TextEditLike {
  range: OpenFixture["range"];
  newText: string;
}
