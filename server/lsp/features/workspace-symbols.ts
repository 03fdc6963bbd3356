/** Holders, keypads, models and doors of every site, found by their name or their label. */
import type { SymbolInformation, WorkspaceSymbolParams } from "vscode-languageserver";
import type { OutlineItem } from "../../../shared/editor/outline.ts";
import { outlineOf } from "../../../shared/editor/outline.ts";
import type { SourceFile } from "../../../shared/finding.ts";
import { rangeOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import { symbolKinds } from "./document-symbols.ts";
import type { Feature } from "./feature.ts";

const listed = new Set(["site", "holder", "keypad", "model", "door", "supply", "relay"]);

export const workspaceSymbols: Feature = {
  capability: { workspaceSymbolProvider: true },
  register(connection, workspace) {
    connection.onWorkspaceSymbol(
      guarded(workspace, "symbols of the workspace", [], async ({ query }: WorkspaceSymbolParams): Promise<SymbolInformation[]> => {
        const sources = new Set((await workspace.allSites()).flatMap(({ site }) => site.files));
        return [...sources].flatMap(source => {
          const found = outlineOf(source.tree).flatMap(item => [item, ...item.children.map(child => ({ ...child, within: item.name }))]);
          return found
            .filter(item => listed.has(item.kind) && matches(query, `${item.name} ${item.detail ?? ""}`))
            .map(item => symbolOf(source, workspace.texts.uri(source.file), item));
        });
      }),
    );
  },
};

function symbolOf(source: SourceFile, uri: string, item: OutlineItem & { readonly within?: string }): SymbolInformation {
  const { name, detail, kind, within } = item;
  return {
    name: detail ? `${name} ${detail}` : name,
    kind: symbolKinds[kind],
    location: { uri, range: rangeOf(source, item.select) },
    ...(within && { containerName: within }),
  };
}

/** The letters of the query in this order, as editors filter. */
function matches(query: string, text: string): boolean {
  const letters = [...query.toLowerCase().replaceAll(" ", "")];
  let at = 0;
  const lower = text.toLowerCase();
  return letters.every(letter => {
    const found = lower.indexOf(letter, at);
    at = found + 1;
    return found >= 0;
  });
}
