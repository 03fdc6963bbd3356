/** What can be written at the cursor, the likeliest first; more is said of the one that is looked at. */
import type { CompletionItem, CompletionList, CompletionParams } from "vscode-languageserver";
import { CompletionItemKind, InsertTextFormat, MarkupKind } from "vscode-languageserver";
import { describe, suggestionsAt } from "../../../shared/editor/complete/complete.ts";
import type { About, Suggestion, SuggestionKind } from "../../../shared/editor/complete/suggestion.ts";
import { offsetOf, rangeOf } from "../convert.ts";
import { guarded } from "../guarded.ts";
import type { Workspace } from "../workspace.ts";
import type { Feature } from "./feature.ts";

const kinds: Record<SuggestionKind, CompletionItemKind> = {
  slot: CompletionItemKind.EnumMember,
  holder: CompletionItemKind.Variable,
  credential: CompletionItemKind.Property,
  model: CompletionItemKind.Struct,
  keypad: CompletionItemKind.Class,
  door: CompletionItemKind.Reference,
  setting: CompletionItemKind.Constant,
  relay: CompletionItemKind.Field,
  field: CompletionItemKind.TypeParameter,
  keyword: CompletionItemKind.Keyword,
  snippet: CompletionItemKind.Snippet,
  file: CompletionItemKind.File,
};

interface MoreOf {
  readonly uri: string;
  readonly about: About;
}

export const completion: Feature = {
  capability: { completionProvider: { resolveProvider: true, triggerCharacters: [".", "{", '"', ":", " "] } },
  register(connection, workspace) {
    connection.onCompletion(
      guarded(workspace, "completion", none, async ({ textDocument: { uri }, position }: CompletionParams): Promise<CompletionList> => {
        const at = await workspace.fileInSite(uri);
        if (!at) return none;
        const offset = offsetOf(at.source, position);
        const { replace, items } = suggestionsAt(at.site, at.source, offset, workspace.filesNear(at.file));
        const range = rangeOf(at.source, replace);
        const likely = likeliest(items, at.source.text.slice(replace.start, offset));
        return {
          isIncomplete: likely.length < items.length,
          items: likely.map((item, index) => itemOf(workspace, uri, item, index, range)),
        };
      }),
    );
    connection.onCompletionResolve((item, token) =>
      guarded(workspace, "completion", item, async (): Promise<CompletionItem> => {
        const more = item.data as MoreOf | undefined;
        if (!more?.uri) return item;
        const at = await workspace.fileInSite(more.uri);
        const value = at && describe(at.site, more.about, workspace.host.today());
        return value === undefined ? item : { ...item, documentation: { kind: MarkupKind.Markdown, value } };
      })(item, token),
    );
  },
};

/** More than anybody looks through. A site of thousands of holders would otherwise be sent whole at every key. */
const most = 300;

/** The first of those that what is typed may become: its letters, in their order. */
function likeliest(items: readonly Suggestion[], typed: string): readonly Suggestion[] {
  if (items.length <= most) return items;
  const letters = [...typed.toLowerCase()];
  const may = ({ label }: Suggestion) => {
    let from = 0;
    const lower = label.toLowerCase();
    return letters.every(letter => {
      from = lower.indexOf(letter, from) + 1;
      return from > 0;
    });
  };
  const found: Suggestion[] = [];
  for (const item of items) {
    if (found.length === most) break;
    if (may(item)) found.push(item);
  }
  return found;
}

const none: CompletionList = { isIncomplete: false, items: [] };

function itemOf(workspace: Workspace, uri: string, item: Suggestion, index: number, range: ReturnType<typeof rangeOf>): CompletionItem {
  const snippets = workspace.client.textDocument?.completion?.completionItem?.snippetSupport === true;
  const newText = item.snippet === undefined ? (item.text ?? item.label) : snippets ? item.snippet : withoutPlaces(item.snippet);
  const data: MoreOf | undefined = item.about && { uri, about: item.about };
  return {
    label: item.label,
    kind: kinds[item.kind],
    ...(item.detail && { detail: item.detail }),
    sortText: String(index).padStart(5, "0"),
    ...(index === 0 && item.rank === 0 && { preselect: true }),
    textEdit: { range, newText },
    ...(item.snippet !== undefined && snippets && { insertTextFormat: InsertTextFormat.Snippet }),
    ...(data && { data }),
  };
}

/** The text of a snippet for a client that knows none: what stands in its places, the first of a choice. */
function withoutPlaces(snippet: string): string {
  const plain = (text: string) => text.replace(/\\([\\$}])/g, "$1");
  return snippet.replace(
    /\\([\\$}])|\$\{\d+\|([^,|$]*)(?:,[^|$]*)?\|\}|\$\{\d+:((?:\\.|[^}\\$])*)\}|\$\d+/g,
    (_, sign?: string, choice?: string, said?: string) => sign ?? plain(choice ?? said ?? ""),
  );
}
