/** Everywhere that what is under the cursor is used, in every file of its sites. */
import type { Location, ReferenceParams } from "vscode-languageserver";
import { mentionAt, mentionsOf } from "../../../shared/editor/names.ts";
import { locationsOf, offsetOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Feature } from "./feature.ts";

export const references: Feature = {
  capability: { referencesProvider: true },
  register(connection, workspace) {
    connection.onReferences(
      guarded(workspace, "find references", [], async ({ textDocument, position, context }: ReferenceParams): Promise<Location[]> => {
        const at = await workspace.fileInSite(textDocument.uri);
        const mention = at && mentionAt(at.source.tree, offsetOf(at.source, position));
        if (!at || !mention) return [];
        const sites = await workspace.sitesSharing(at.sites, mention.named);
        const mentions = sites.flatMap(site => mentionsOf(site, mention.named));
        return locationsOf(
          workspace.texts,
          mentions.filter(({ declares }) => context.includeDeclaration || !declares),
        );
      }),
    );
  },
};
