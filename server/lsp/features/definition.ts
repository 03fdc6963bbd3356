/** Where what is under the cursor is declared. */
import type { DefinitionParams, Location } from "vscode-languageserver";
import { definitionsOf, mentionAt } from "../../../shared/editor/names.ts";
import { locationsOf, offsetOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Feature } from "./feature.ts";

export const definition: Feature = {
  capability: { definitionProvider: true },
  register(connection, workspace) {
    connection.onDefinition(
      guarded(workspace, "go to definition", [], async ({ textDocument, position }: DefinitionParams): Promise<Location[]> => {
        const at = await workspace.fileInSite(textDocument.uri);
        const mention = at && mentionAt(at.source.tree, offsetOf(at.source, position));
        if (!at || !mention) return [];
        return locationsOf(
          workspace.texts,
          at.sites.flatMap(({ site }) => definitionsOf(site, mention.named)),
        );
      }),
    );
  },
};
