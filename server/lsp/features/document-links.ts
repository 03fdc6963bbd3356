/** The path of a `use` opens the file. */
import type { DocumentLink, DocumentLinkParams } from "vscode-languageserver";
import { resolvePath } from "../../../shared/site/paths.ts";
import { rangeOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import { schemeOf } from "../uri.ts";
import type { Feature } from "./feature.ts";

export const documentLinks: Feature = {
  capability: { documentLinkProvider: { resolveProvider: false } },
  register(connection, workspace) {
    connection.onDocumentLinks(
      guarded(workspace, "links", [], async ({ textDocument }: DocumentLinkParams): Promise<DocumentLink[]> => {
        const at = workspace.file(textDocument.uri);
        if (!at) return [];
        return at.source.tree.declarations.flatMap(declaration => {
          if (declaration.kind !== "use" || !declaration.path?.text) return [];
          const { start, end, text } = declaration.path;
          const target = workspace.texts.uri(resolvePath(at.file, text));
          // A document that lies nowhere has nothing beside it.
          if (schemeOf(target) === "") return [];
          const closed = at.source.text[end - 1] === '"' && end - 1 > start;
          const range = rangeOf(at.source, { start: start + 1, end: closed ? end - 1 : end });
          return [{ range, target, tooltip: "Open this file" }];
        });
      }),
    );
  },
};
