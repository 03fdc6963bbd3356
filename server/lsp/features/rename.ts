/** Renaming holders, keypads, models, supplies, doors and named codes and tags, across files, from a definition or any use. */
import type { PrepareRenameParams, Range, RenameParams, WorkspaceEdit } from "vscode-languageserver";
import { LSPErrorCodes, ResponseError } from "vscode-languageserver";
import { mentionAt } from "../../../shared/editor/names.ts";
import { nameSpan, renameEdits, whyNot } from "../../../shared/editor/rename.ts";
import { offsetOf, rangeOf, workspaceEditOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Feature } from "./feature.ts";

export const rename: Feature = {
  capability: client => ({ renameProvider: client.textDocument?.rename?.prepareSupport ? { prepareProvider: true } : true }),
  register(connection, workspace) {
    connection.onPrepareRename(
      guarded(
        workspace,
        "rename",
        null,
        async ({ textDocument, position }: PrepareRenameParams): Promise<{ range: Range; placeholder: string } | null> => {
          const at = workspace.file(textDocument.uri);
          const mention = at && mentionAt(at.source.tree, offsetOf(at.source, position));
          if (!at || !mention) return null;
          const refused = whyNot(mention);
          if (refused) throw cannot(refused);
          return { range: rangeOf(at.source, nameSpan(mention)), placeholder: mention.named.name };
        },
      ),
    );
    connection.onRenameRequest(
      guarded(workspace, "rename", null, async ({ textDocument, position, newName }: RenameParams): Promise<WorkspaceEdit | null> => {
        // A file that is not known yet would keep the old name.
        await workspace.indexed;
        const at = await workspace.fileInSite(textDocument.uri);
        const mention = at && mentionAt(at.source.tree, offsetOf(at.source, position));
        if (!at || !mention) return null;
        const edits = renameEdits(await workspace.sitesSharing(at.sites, mention.named), mention, newName);
        if ("refused" in edits) throw cannot(edits.refused);
        return workspaceEditOf(workspace.texts, edits, workspace.client.workspace?.workspaceEdit?.documentChanges === true);
      }),
    );
  },
};

function cannot(reason: string): ResponseError<never> {
  return new ResponseError<never>(LSPErrorCodes.RequestFailed, `Cannot rename: ${reason}.`);
}
