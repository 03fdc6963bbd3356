/** The outline of a file. */
import type { DocumentSymbol, DocumentSymbolParams, SymbolInformation } from "vscode-languageserver";
import { SymbolKind } from "vscode-languageserver";
import type { OutlineItem, OutlineKind } from "../../../shared/editor/outline.ts";
import { outlineOf } from "../../../shared/editor/outline.ts";
import type { SourceFile } from "../../../shared/finding.ts";
import { rangeOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Feature } from "./feature.ts";

export const symbolKinds: Record<OutlineKind, SymbolKind> = {
  use: SymbolKind.File,
  site: SymbolKind.Namespace,
  policy: SymbolKind.Interface,
  holder: SymbolKind.Variable,
  code: SymbolKind.Key,
  tag: SymbolKind.Key,
  keypad: SymbolKind.Class,
  relay: SymbolKind.Field,
  entry: SymbolKind.EnumMember,
  model: SymbolKind.Struct,
  operation: SymbolKind.Method,
  factory: SymbolKind.Object,
  fitted: SymbolKind.Array,
  door: SymbolKind.Object,
  supply: SymbolKind.Object,
};

export const documentSymbols: Feature = {
  capability: { documentSymbolProvider: { label: "Mullion" } },
  register(connection, workspace) {
    connection.onDocumentSymbol(
      guarded(workspace, "outline", [], async ({ textDocument }: DocumentSymbolParams): Promise<DocumentSymbol[] | SymbolInformation[]> => {
        const at = workspace.file(textDocument.uri);
        if (!at) return [];
        const outline = outlineOf(at.source.tree);
        const nested = workspace.client.textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true;
        return nested ? outline.map(item => symbolOf(at.source, item)) : flat(at.source, textDocument.uri, outline);
      }),
    );
  },
};

function symbolOf(source: SourceFile, item: OutlineItem): DocumentSymbol {
  return {
    name: item.name,
    ...(item.detail && { detail: item.detail }),
    kind: symbolKinds[item.kind],
    range: rangeOf(source, item),
    selectionRange: rangeOf(source, item.select),
    children: item.children.map(child => symbolOf(source, child)),
  };
}

function flat(source: SourceFile, uri: string, items: readonly OutlineItem[], containerName?: string): SymbolInformation[] {
  return items.flatMap(item => [
    {
      name: item.name,
      kind: symbolKinds[item.kind],
      location: { uri, range: rangeOf(source, item) },
      ...(containerName && { containerName }),
    },
    ...flat(source, uri, item.children, item.name),
  ]);
}
