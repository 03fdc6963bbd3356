/** A file that is used elsewhere is about to move: the paths that name it, and those in it, go along, and so does the record beside it. */
import type { RenameFilesParams, WorkspaceEdit } from "vscode-languageserver";
import { RenameFile, ResourceOperationKind } from "vscode-languageserver";
import { moveEdits, recordsAlong } from "../../../shared/editor/moves.ts";
import { workspaceEditOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import { fileIdOf } from "../uri.ts";
import type { Feature } from "./feature.ts";

export const willRename: Feature = {
  capability: {
    workspace: {
      fileOperations: {
        willRename: {
          filters: [
            { scheme: "file", pattern: { glob: "**/*.mullion", matches: "file" } },
            { scheme: "file", pattern: { glob: "**", matches: "folder" } },
          ],
        },
      },
    },
  },
  register(connection, workspace) {
    connection.workspace.onWillRenameFiles(
      guarded(workspace, "moving files", null, async ({ files }: RenameFilesParams): Promise<WorkspaceEdit | null> => {
        await workspace.indexed;
        const sites = await workspace.allSites();
        const sources = [...new Map(sites.flatMap(({ site }) => site.files.map(source => [source.file, source] as const))).values()];
        const moves = files.map(({ oldUri, newUri }) => ({ from: fileIdOf(oldUri), to: fileIdOf(newUri) }));
        const { documentChanges = false, resourceOperations = [] } = workspace.client.workspace?.workspaceEdit ?? {};
        const canMove = documentChanges && resourceOperations.includes(ResourceOperationKind.Rename);
        const along = canMove ? recordsAlong(sources, moves) : [];
        const edits = moveEdits(sources, [...moves, ...along]);
        if (edits.length === 0 && along.length === 0) return null;
        const change = workspaceEditOf(workspace.texts, edits, documentChanges);
        if (along.length === 0) return change;
        const renames = along.map(({ from, to }) => RenameFile.create(workspace.texts.uri(from), to));
        return { documentChanges: [...(change.documentChanges ?? []), ...renames] };
      }),
    );
  },
};
