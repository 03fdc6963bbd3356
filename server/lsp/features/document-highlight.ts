/** The same name elsewhere in this file: where it is declared as written, where it is used as read. */
import type { DocumentHighlight, DocumentHighlightParams } from "vscode-languageserver";
import { DocumentHighlightKind } from "vscode-languageserver";
import { mentionAt, mentionsOf } from "../../../shared/editor/names.ts";
import { offsetOf, rangeOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Feature } from "./feature.ts";

export const documentHighlight: Feature = {
  capability: { documentHighlightProvider: true },
  register(connection, workspace) {
    connection.onDocumentHighlight(
      guarded(workspace, "highlights", [], async ({ textDocument, position }: DocumentHighlightParams): Promise<DocumentHighlight[]> => {
        const at = await workspace.fileInSite(textDocument.uri);
        const mention = at && mentionAt(at.source.tree, offsetOf(at.source, position));
        if (!at || !mention) return [];
        return mentionsOf(at.site, mention.named)
          .filter(each => each.file === at.file)
          .map(each => ({
            range: rangeOf(at.source, each),
            kind: each.declares ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
          }));
      }),
    );
  },
};
