/** Words coloured by what they mean: the whole file, a part of it, or what has changed since. */
import type {
  SemanticTokens,
  SemanticTokensDelta,
  SemanticTokensDeltaParams,
  SemanticTokensParams,
  SemanticTokensRangeParams,
} from "vscode-languageserver";
import { SemanticTokensBuilder } from "vscode-languageserver";
import type { Span } from "../../../grammar/tree.ts";
import { coloredWords, colorKinds, colorModifiers } from "../../../shared/editor/coloring.ts";
import { rangeOf, spanOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { AtWork } from "../workspace.ts";
import type { Feature } from "./feature.ts";

const none: SemanticTokens = { data: [] };

export const semanticTokens: Feature = {
  capability: {
    semanticTokensProvider: {
      legend: { tokenTypes: [...colorKinds], tokenModifiers: [...colorModifiers] },
      full: { delta: true },
      range: true,
    },
  },
  register(connection, workspace) {
    /** One builder for each open file: it remembers what was sent last. */
    const builders = new Map<string, SemanticTokensBuilder>();
    const builderOf = (uri: string) => {
      for (const known of builders.keys()) if (!workspace.file(known)) builders.delete(known);
      const builder = builders.get(uri) ?? new SemanticTokensBuilder();
      builders.set(uri, builder);
      return builder;
    };
    const { semanticTokens } = connection.languages;
    semanticTokens.on(
      guarded(workspace, "colours", none, async ({ textDocument: { uri } }: SemanticTokensParams): Promise<SemanticTokens> => {
        const at = workspace.file(uri);
        if (!at) return none;
        const builder = builderOf(uri);
        builder.previousResult("");
        fill(builder, at);
        return builder.build();
      }),
    );
    semanticTokens.onDelta(
      guarded(
        workspace,
        "colours",
        none,
        async ({ textDocument: { uri }, previousResultId }: SemanticTokensDeltaParams): Promise<SemanticTokens | SemanticTokensDelta> => {
          const at = workspace.file(uri);
          if (!at) return none;
          const builder = builderOf(uri);
          builder.previousResult(previousResultId);
          fill(builder, at);
          return builder.buildEdits();
        },
      ),
    );
    semanticTokens.onRange(
      guarded(workspace, "colours", none, async ({ textDocument, range }: SemanticTokensRangeParams): Promise<SemanticTokens> => {
        const at = workspace.file(textDocument.uri);
        if (!at) return none;
        const builder = new SemanticTokensBuilder();
        fill(builder, at, spanOf(at.source, range));
        return builder.build();
      }),
    );
  },
};

function fill(builder: SemanticTokensBuilder, { source }: AtWork, within?: Span): void {
  for (const { start, end, kind, modifiers } of coloredWords(source.text, source.tree)) {
    if (within && (end <= within.start || start >= within.end)) continue;
    const at = rangeOf(source, { start, end }).start;
    const bits = modifiers.reduce((sum, modifier) => sum | (1 << colorModifiers.indexOf(modifier)), 0);
    builder.push(at.line, at.character, end - start, colorKinds.indexOf(kind), bits);
  }
}
