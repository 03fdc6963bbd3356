/** What is said of the place under the cursor. */
import type { Hover, HoverParams } from "vscode-languageserver";
import { MarkupKind } from "vscode-languageserver";
import { hoverAt } from "../../../shared/editor/hover.ts";
import { offsetOf, rangeOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Feature } from "./feature.ts";

export const hover: Feature = {
  capability: { hoverProvider: true },
  register(connection, workspace) {
    connection.onHover(
      guarded(workspace, "hover", null, async ({ textDocument, position }: HoverParams): Promise<Hover | null> => {
        const { maskCodes } = await workspace.settings.of(textDocument.uri);
        const at = await workspace.fileInSite(textDocument.uri);
        if (!at) return null;
        const said = hoverAt({ ...at, offset: offsetOf(at.source, position), today: workspace.host.today(), maskCodes, plan: at.plan });
        if (!said) return null;
        const formats = workspace.client.textDocument?.hover?.contentFormat;
        const kind = formats && !formats.includes(MarkupKind.Markdown) ? MarkupKind.PlainText : MarkupKind.Markdown;
        return { contents: { kind, value: said.markdown }, range: rangeOf(at.source, said) };
      }),
    );
  },
};
