/** Findings as diagnostics: pulled by clients that can, a file or the whole workspace at a time; pushed to the others. Never both. */
import type {
  CancellationToken,
  ClientCapabilities,
  Connection,
  Diagnostic,
  DocumentDiagnosticParams,
  DocumentDiagnosticReport,
  WorkspaceDiagnosticParams,
  WorkspaceDiagnosticReport,
  WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver";
import { LSPErrorCodes, ResponseError } from "vscode-languageserver";
import type { FileId } from "../../../shared/finding.ts";
import { diagnosticOf } from "../convert.ts";
import { findingsByFile, findingsIn } from "../findings-in.ts";
import { quietly, unversioned } from "../guarded.ts";
import { fileIdOf } from "../uri.ts";
import { wishesOf } from "../wishes.ts";
import type { Workspace } from "../workspace.ts";
import type { Feature } from "./feature.ts";

export const diagnostics: Feature = {
  capability: client =>
    canPull(client) ? { diagnosticProvider: { identifier: "mullion", interFileDependencies: true, workspaceDiagnostics: true } } : {},
  register(connection, workspace) {
    if (canPull(workspace.client)) answerPulls(connection, workspace);
    else push(connection, workspace);
  },
};

function canPull(client: ClientCapabilities): boolean {
  return client.textDocument?.diagnostic !== undefined;
}

/* Pull */

function answerPulls(connection: Connection, workspace: Workspace): void {
  connection.languages.diagnostics.on(
    unversioned(workspace, "findings of a file", nothing, async (params: DocumentDiagnosticParams): Promise<DocumentDiagnosticReport> => {
      const items = await itemsOf(workspace, fileIdOf(params.textDocument.uri));
      const resultId = digest(items);
      return resultId === params.previousResultId ? { kind: "unchanged", resultId } : { kind: "full", resultId, items };
    }),
  );

  const waiting = new Set<() => void>();
  const release = () => {
    for (const go of waiting) go();
    waiting.clear();
  };
  workspace.onChange(why => {
    release();
    // What is typed makes the client pull by itself; what happens elsewhere does not.
    if (why === "elsewhere" && workspace.client.workspace?.diagnostics?.refreshSupport) quietly(connection.languages.diagnostics.refresh());
  });

  connection.languages.diagnostics.onWorkspace(
    unversioned(
      workspace,
      "findings of the workspace",
      { items: [] },
      async (params: WorkspaceDiagnosticParams, token): Promise<WorkspaceDiagnosticReport> => {
        await workspace.indexed;
        for (;;) {
          const changed = new Promise<void>(resolve => waiting.add(resolve));
          const items = await reportsOf(workspace, params, token);
          if (items.some(item => item.kind === "full")) return { items };
          // Nothing is new since the client last asked: held open until something changes.
          await Promise.race([changed, cancellation(token)]);
          if (token.isCancellationRequested) throw new ResponseError(LSPErrorCodes.RequestCancelled, "cancelled");
        }
      },
    ),
  );
}

const nothing: DocumentDiagnosticReport = { kind: "full", items: [] };

async function reportsOf(
  workspace: Workspace,
  params: WorkspaceDiagnosticParams,
  token: CancellationToken,
): Promise<WorkspaceDocumentDiagnosticReport[]> {
  const known = new Map((params.previousResultIds ?? []).map(({ uri, value }) => [fileIdOf(uri), { uri, value }]));
  const reports: WorkspaceDocumentDiagnosticReport[] = [];
  for (const [file, findings] of await findingsByFile(workspace)) {
    if (token.isCancellationRequested) return [];
    const source = workspace.texts.now(file);
    if (!source) continue;
    const items = findings.map(finding => diagnosticOf(workspace.texts, source, finding, wishesOf(workspace)));
    const resultId = digest(items);
    const opened = workspace.texts.opened(file);
    const version = opened?.document.version ?? null;
    const before = known.get(file);
    known.delete(file);
    const uri = before?.uri ?? workspace.texts.uri(file);
    if (before?.value === resultId) reports.push({ kind: "unchanged", uri, version, resultId });
    else reports.push({ kind: "full", uri, version, resultId, items });
  }
  // What is no longer there has no findings any more; said once, since an empty answer without an id is not kept.
  const gone = [...known.values()].filter(({ value }) => value !== digest([]));
  return [...reports, ...gone.map(({ uri }) => ({ kind: "full" as const, uri, version: null, resultId: digest([]), items: [] }))];
}

function cancellation(token: CancellationToken): Promise<void> {
  return new Promise(resolve => {
    if (token.isCancellationRequested) resolve();
    else token.onCancellationRequested(() => resolve());
  });
}

/* Push */

function push(connection: Connection, workspace: Workspace): void {
  const sent = new Map<FileId, { readonly uri: string; readonly id: string }>();
  const send = async () => {
    const findings = await findingsByFile(workspace);
    const now = new Map<FileId, { readonly uri: string; readonly id: string }>();
    for (const [file, found] of findings) {
      const source = workspace.texts.now(file);
      if (!source) continue;
      const items = found.map(finding => diagnosticOf(workspace.texts, source, finding, wishesOf(workspace)));
      const uri = workspace.texts.uri(file);
      const version = workspace.texts.opened(file)?.document.version;
      const id = `${version}:${digest(items)}`;
      now.set(file, { uri, id });
      const before = sent.get(file);
      if (before?.id === id || (!before && items.length === 0 && version === undefined)) continue;
      void connection.sendDiagnostics({ uri, diagnostics: items, ...(version !== undefined && { version }) });
    }
    for (const [file, { uri }] of sent) if (!now.has(file)) void connection.sendDiagnostics({ uri, diagnostics: [] });
    sent.clear();
    for (const [file, what] of now) sent.set(file, what);
  };
  let sending: Promise<void> = Promise.resolve();
  workspace.onChange(() => {
    sending = sending.then(send).catch(fault => workspace.faults.report("findings", fault));
  });
}

/* Both */

async function itemsOf(workspace: Workspace, file: FileId): Promise<Diagnostic[]> {
  const findings = await findingsIn(workspace, file);
  const source = workspace.texts.now(file);
  return source ? findings.map(finding => diagnosticOf(workspace.texts, source, finding, wishesOf(workspace))) : [];
}

/** Equal findings have one digest: FNV-1a over the items as text, twice with different seeds to 64 bits. */
function digest(items: readonly Diagnostic[]): string {
  const text = JSON.stringify(items);
  const half = (seed: number) => {
    let hash = seed;
    for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
    return (hash >>> 0).toString(16).padStart(8, "0");
  };
  return half(0x811c9dc5) + half(0x050c5d1f);
}
