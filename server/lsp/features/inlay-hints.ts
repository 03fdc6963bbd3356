/** The keys behind each line that is typed, at its end: never, always, or for what is not yet fitted. */
import type { InlayHint, InlayHintParams } from "vscode-languageserver";
import { MarkupKind } from "vscode-languageserver";
import type { KeypadLine } from "../../../shared/editor/keypad-lines.ts";
import { keypadLines } from "../../../shared/editor/keypad-lines.ts";
import { lineKeys, lineWords } from "../../../shared/editor/line-words.ts";
import { documentOf, spanOf } from "../convert.ts";
import { guarded, quietly } from "../guarded.ts";
import type { AtWorkInSite } from "../workspace.ts";
import type { Feature } from "./feature.ts";

/** What a hint needs to be told in full; whether codes were to be hidden is asked again. */
interface HintData {
  readonly uri: string;
  readonly start: number;
}

export const inlayHints: Feature = {
  capability: { inlayHintProvider: { resolveProvider: true } },
  register(connection, workspace) {
    connection.languages.inlayHint.on(
      guarded(workspace, "hints", [], async ({ textDocument: { uri }, range }: InlayHintParams, token): Promise<InlayHint[]> => {
        const { inlayHints: wanted, maskCodes } = await workspace.settings.of(uri);
        const at = wanted === "off" ? undefined : await workspace.fileInSite(uri);
        if (!at) return [];
        const { start, end } = spanOf(at.source, range);
        const hints: InlayHint[] = [];
        for (const line of linesIn(at, maskCodes)) {
          if (token.isCancellationRequested) return [];
          if (line.end < start || line.start > end) continue;
          const preview = line.preview();
          const keys = wanted === "on" || preview.state !== "fitted" ? lineKeys(preview) : undefined;
          const data: HintData = { uri, start: line.start };
          if (keys)
            hints.push({
              position: documentOf(at.source).positionAt(pastBrace(at.source.text, line.end)),
              label: keys,
              paddingLeft: true,
              data,
            });
        }
        return hints.sort((one, other) => one.position.line - other.position.line || one.position.character - other.position.character);
      }),
    );
    connection.languages.inlayHint.resolve(async (hint, token) => {
      const resolve = guarded(workspace, "hints", hint, async (): Promise<InlayHint> => {
        const data = hint.data as HintData | undefined;
        if (!data?.uri) return hint;
        const { uri, start } = data;
        const { maskCodes } = await workspace.settings.of(uri);
        const at = await workspace.fileInSite(uri);
        for (const line of at ? linesIn(at, maskCodes) : [])
          if (line.start === start) return { ...hint, tooltip: { kind: MarkupKind.Markdown, value: lineWords(line.preview()) } };
        return hint;
      });
      return resolve(hint, token);
    });
    workspace.onChange(why => {
      if (why === "elsewhere" && workspace.client.workspace?.inlayHint?.refreshSupport) quietly(connection.languages.inlayHint.refresh());
    });
  },
};

/** Past the `{` that follows, so that a hint never stands between a line's words and its brace. */
function pastBrace(text: string, end: number): number {
  const brace = /[ \t]*\{/y;
  brace.lastIndex = end;
  return brace.test(text) ? brace.lastIndex : end;
}

function* linesIn({ site, file }: AtWorkInSite, maskCodes: boolean): Iterable<KeypadLine> {
  for (const keypad of site.keypads.values()) if (keypad.file === file) yield* keypadLines(site, keypad, { hideCodes: maskCodes });
}
