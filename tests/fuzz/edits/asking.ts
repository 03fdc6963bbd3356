/** A request of any kind about any place, as an editor would put it. */
import type { Random } from "../random.ts";
import { positionAt } from "./text.ts";

export interface Asked {
  readonly method: string;
  readonly params: unknown;
}

export function askAnything(random: Random, uri: string, text: string): Asked {
  const place = () => positionAt(text, random.below(text.length + 1));
  const textDocument = { uri };
  const position = random.oneIn(30) ? random.one(beyond) : place();
  const [one, other] = [random.below(text.length + 1), random.below(text.length + 1)];
  const range = { start: positionAt(text, Math.min(one, other)), end: positionAt(text, Math.max(one, other)) };
  const options = { tabSize: 2, insertSpaces: true };
  const at = { textDocument, position };
  return random.one<() => Asked>([
    ...["hover", "completion", "signatureHelp", "definition", "documentHighlight", "prepareRename"].map(name => () => ({
      method: `textDocument/${name}`,
      params: at,
    })),
    ...["codeLens", "documentSymbol", "foldingRange", "documentLink", "semanticTokens/full", "diagnostic"].map(name => () => ({
      method: `textDocument/${name}`,
      params: { textDocument },
    })),
    () => ({ method: "textDocument/references", params: { ...at, context: { includeDeclaration: random.oneIn(2) } } }),
    () => ({ method: "textDocument/rename", params: { ...at, newName: random.one(["renamed", "u1", "", "a b", "1", "relay", "ü"]) } }),
    () => ({ method: "textDocument/selectionRange", params: { textDocument, positions: [position, place()] } }),
    () => ({ method: "textDocument/semanticTokens/range", params: { textDocument, range } }),
    () => ({ method: "textDocument/semanticTokens/full/delta", params: { textDocument, previousResultId: random.one(["1", "", "x"]) } }),
    () => ({ method: "textDocument/inlayHint", params: { textDocument, range } }),
    () => ({ method: "textDocument/formatting", params: { textDocument, options } }),
    () => ({ method: "textDocument/rangeFormatting", params: { textDocument, range, options } }),
    () => ({ method: "textDocument/onTypeFormatting", params: { ...at, ch: random.one(["\n", "}"]), options } }),
    () => ({
      method: "textDocument/codeAction",
      params: {
        textDocument,
        range,
        context: { diagnostics: [], ...(random.oneIn(3) && { only: [random.one(["quickfix", "source.fixAll"])] }) },
      },
    }),
    () => ({ method: "workspace/symbol", params: { query: random.one(["", "u1", "gate", "🏺"]) } }),
    () => ({ method: "mullion/waiting", params: random.oneIn(2) ? {} : { uri } }),
    () => ({ method: "mullion/who", params: { uri } }),
    () => ({ method: "mullion/explain", params: { code: random.one(["slot-clash", "no-such-code"]) } }),
    () => ({ method: "mullion/preview", params: { uri } }),
    () => ({ method: "mullion/sheet", params: { uri, format: random.one(["html", "md", "csv", "json", "txt"]) } }),
    () => ({
      method: "mullion/paper",
      params: { uri, paper: random.one(["register", "slips", "visit", "handover"]), format: random.one(["html", "md", "txt"]) },
    }),
    () => ({ method: "mullion/draw", params: { uri, holder: random.one(["u1", "mgr", "nobody"]) } }),
    () => ({ method: "mullion/newSite", params: { name: random.one(["Wren Yard", "", "../x", "🏺"]) } }),
  ])();
}

/** Places that no text has. */
const beyond = [
  { line: 0, character: 2 ** 31 - 1 },
  { line: 2 ** 31 - 1, character: 0 },
  { line: 2 ** 31 - 1, character: 2 ** 31 - 1 },
];
