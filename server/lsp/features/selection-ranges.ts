/** Growing a selection: the word, what it is part of, the entry, the relay, the keypad, the file. */
import type { SelectionRange, SelectionRangeParams } from "vscode-languageserver";
import { widening } from "../../../shared/editor/widening.ts";
import { offsetOf, rangeOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Feature } from "./feature.ts";

export const selectionRanges: Feature = {
  capability: { selectionRangeProvider: true },
  register(connection, workspace) {
    connection.onSelectionRanges(
      guarded(workspace, "selection", null, async ({ textDocument, positions }: SelectionRangeParams): Promise<SelectionRange[] | null> => {
        const at = workspace.file(textDocument.uri);
        if (!at) return null;
        return positions.map(position => {
          const spans = widening(at.source.tree, at.source.text, offsetOf(at.source, position));
          // From the widest inwards, each within the one before.
          return spans.reduceRight<SelectionRange | undefined>(
            (parent, span) => ({ range: rangeOf(at.source, span), ...(parent && { parent }) }),
            undefined,
          ) as SelectionRange;
        });
      }),
    );
  },
};
