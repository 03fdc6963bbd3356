/** Messages that no editor should send: of the wrong shape, about what is not there, out of order, or no message at all. */
import type { Random } from "../random.ts";

export interface Malformed {
  readonly method: string;
  readonly params: unknown;
  readonly isRequest: boolean;
  /** Sent as it stands instead. */
  readonly text?: string;
}

/**
 * @param open addresses of open documents: what must not lose its text
 * @param any an address of a file, open or not
 */
export function malformed(random: Random, open: readonly string[], any: string): Malformed {
  const closed = open.includes(any) ? `${any}.other` : any;
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } };
  const notified = (method: string, params: unknown): Malformed => ({ method, params, isRequest: false });
  const asked = (method: string, params: unknown): Malformed => ({ method, params, isRequest: true });
  return random.one([
    () => ({
      ...notified("", null),
      text: random.one([
        "",
        "{",
        "null",
        "[]",
        "7",
        '"x"',
        "{}",
        "\u0000",
        '{"jsonrpc":"2.0"}',
        '{"jsonrpc":"1.0","id":1}',
        '{"jsonrpc":"2.0","id":{},"method":"x"}',
      ]),
    }),
    () => notified("textDocument/didChange", { textDocument: { uri: closed, version: 2 }, contentChanges: [{ range, text: "x" }] }),
    () => notified("textDocument/didClose", { textDocument: { uri: closed } }),
    () => notified(random.one(["textDocument/didSave", "textDocument/willSave"]), { textDocument: { uri: any }, reason: 1 }),
    () =>
      notified(
        random.one(["textDocument/didOpen", "textDocument/didChange", "textDocument/didClose", "workspace/didChangeWatchedFiles"]),
        random.one(shapes),
      ),
    () => notified("workspace/didChangeWorkspaceFolders", random.one(shapes)),
    () =>
      notified("workspace/didChangeWatchedFiles", {
        changes: random.one([null, 7, [null], [{}], [{ uri: 7, type: 2 }], [{ uri: "", type: 99 }]]),
      }),
    () =>
      notified(
        random.one(["$/unknown", "unknown", "$/setTrace", "$/cancelRequest", "initialized", "$/progress"]),
        random.one([...shapes, { id: 99999 }, { value: "verbose" }]),
      ),
    () => asked(random.one(["textDocument/nothing", "unknown", "mullion/nothing"]), random.one(shapes)),
    () => asked("initialize", { processId: null, rootUri: null, capabilities: {} }),
    () => asked(random.one(requests), random.one(shapes)),
    () =>
      asked(random.one(requests), {
        textDocument: { uri: any },
        position: random.one(positions),
        range: random.one([null, range, { start: 7 }]),
      }),
    () =>
      asked(
        random.one(["codeLens/resolve", "completionItem/resolve", "codeAction/resolve", "inlayHint/resolve"]),
        random.one([...shapes, { label: "x", data: 7 }, { label: "x", data: { uri: any } }]),
      ),
  ])();
}

const shapes: readonly unknown[] = [
  null,
  [],
  {},
  7,
  "x",
  true,
  [1, 2],
  { textDocument: null },
  { textDocument: {} },
  { textDocument: { uri: 7 } },
  { textDocument: { uri: "no address" } },
  { uri: null },
];

const positions: readonly unknown[] = [
  null,
  {},
  { line: -1, character: -1 },
  { line: 0.5, character: 1.5 },
  { line: "0", character: "0" },
  { line: Number.MAX_SAFE_INTEGER, character: 1e300 },
];

const requests = [
  ...[
    "hover",
    "completion",
    "signatureHelp",
    "definition",
    "references",
    "documentHighlight",
    "prepareRename",
    "rename",
    "selectionRange",
  ].map(name => `textDocument/${name}`),
  ...[
    "codeAction",
    "codeLens",
    "inlayHint",
    "documentSymbol",
    "foldingRange",
    "documentLink",
    "semanticTokens/full",
    "semanticTokens/range",
    "semanticTokens/full/delta",
  ].map(name => `textDocument/${name}`),
  ...["diagnostic", "formatting", "rangeFormatting", "onTypeFormatting"].map(name => `textDocument/${name}`),
  ...["workspace/symbol", "workspace/diagnostic", "workspace/willRenameFiles", "workspace/executeCommand"],
  ...["sheet", "preview", "paper", "waiting", "explain", "who", "record", "draw", "newSite", "unlock", "unseal", "reseal"].map(
    name => `mullion/${name}`,
  ),
];
