/** The canonical layout: of the whole file, of some lines, of the line just left. No edit while the text has syntax errors. */
import type {
  DocumentFormattingParams,
  DocumentOnTypeFormattingParams,
  DocumentRangeFormattingParams,
  DocumentRangesFormattingParams,
  Range,
  TextEdit,
} from "vscode-languageserver";
import { format } from "../../../grammar/format.ts";
import { spacingEdits } from "../../../shared/editor/spacing.ts";
import { textEditOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { AtWork, Workspace } from "../workspace.ts";
import type { Feature } from "./feature.ts";

export const formatting: Feature = {
  capability: {
    documentFormattingProvider: true,
    documentRangeFormattingProvider: { rangesSupport: true },
    documentOnTypeFormattingProvider: { firstTriggerCharacter: "}", moreTriggerCharacter: ["\n"] },
  },
  register(connection, workspace) {
    connection.onDocumentFormatting(
      guarded(workspace, "formatting", [], async ({ textDocument }: DocumentFormattingParams) => editsOf(workspace, textDocument.uri)),
    );
    connection.onDocumentRangeFormatting(
      guarded(workspace, "formatting", [], async ({ textDocument, range }: DocumentRangeFormattingParams) =>
        editsOf(workspace, textDocument.uri).filter(edit => touchesLines(edit, range)),
      ),
    );
    connection.onDocumentRangesFormatting(
      guarded(workspace, "formatting", [], async ({ textDocument, ranges }: DocumentRangesFormattingParams) =>
        editsOf(workspace, textDocument.uri).filter(edit => ranges.some(range => touchesLines(edit, range))),
      ),
    );
    connection.onDocumentOnTypeFormatting(
      guarded(workspace, "formatting", [], async ({ textDocument, position, ch }: DocumentOnTypeFormattingParams) => {
        // A new line: what is left behind is put in order, the line that is about to be written is the writer's.
        const line = ch === "\n" ? position.line - 1 : position.line;
        const start = { line, character: 0 };
        return editsOf(workspace, textDocument.uri).filter(
          ({ range }) => range.start.line === line && range.end.line === line && start.line >= 0,
        );
      }),
    );
  },
};

function editsOf(workspace: Workspace, uri: string): TextEdit[] {
  const at = workspace.file(uri);
  const formatted = at && format(at.source.text);
  if (!at || formatted === undefined) return [];
  const edits = spacingEdits(at.source.text, formatted);
  if (edits) return edits.map(edit => textEditOf(at.source, edit));
  reportLoss(workspace, at);
  return [];
}

/** The formatter may only move words apart and together; anything else is a fault of ours and no edit is given. */
function reportLoss({ faults }: Workspace, { source }: AtWork): void {
  faults.report("formatting", new Error(`the layout of a text of ${source.text.length} characters would change more than spacing`));
}

function touchesLines(edit: TextEdit, range: Range): boolean {
  // A selection that ends before the first character of a line does not mean that line.
  const last = range.end.character === 0 && range.end.line > range.start.line ? range.end.line - 1 : range.end.line;
  return edit.range.start.line >= range.start.line && edit.range.end.line <= last + (edit.range.end.character === 0 ? 1 : 0);
}
