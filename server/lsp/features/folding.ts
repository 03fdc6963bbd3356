/** What can be folded away. */
import type { FoldingRange, FoldingRangeParams } from "vscode-languageserver";
import { FoldingRangeKind } from "vscode-languageserver";
import { foldsOf } from "../../../shared/editor/folds.ts";
import { rangeOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Feature } from "./feature.ts";

const kinds = { block: undefined, comment: FoldingRangeKind.Comment, uses: FoldingRangeKind.Imports };

export const folding: Feature = {
  capability: { foldingRangeProvider: true },
  register(connection, workspace) {
    connection.onFoldingRanges(
      guarded(workspace, "folding", [], async ({ textDocument }: FoldingRangeParams): Promise<FoldingRange[]> => {
        const at = workspace.file(textDocument.uri);
        if (!at) return [];
        const { rangeLimit = Number.POSITIVE_INFINITY } = workspace.client.textDocument?.foldingRange ?? {};
        return foldsOf(at.source.tree, at.source.text)
          .slice(0, rangeLimit)
          .map(fold => {
            const { start, end } = rangeOf(at.source, fold);
            const kind = kinds[fold.kind];
            return { startLine: start.line, endLine: end.line, ...(kind && { kind }) };
          });
      }),
    );
  },
};
