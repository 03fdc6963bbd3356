/** Every feature at many places of real and damaged texts: always an answer, never a fault; and no code where codes are hidden. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { CodeLens, CompletionList, InlayHint } from "vscode-languageserver/node";
import { CodeLensResolveRequest, CompletionResolveRequest, InlayHintResolveRequest } from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { EditorOptions } from "./editor.ts";
import { startEditor } from "./editor.ts";

const samples = join(import.meta.dirname, "../../../samples");
const files = new Map<string, string>();
for (const name of readdirSync(samples, { recursive: true, encoding: "utf8" }))
  if (name.endsWith(".mullion")) files.set(`/${name}`, readFileSync(join(samples, name), "utf8"));

/** Digits that the samples give to holders, installers and keypads as codes. */
const codes = new Set(
  [...files.values()].flatMap(text => [...text.matchAll(/\bcode (?:[a-z][\w-]* )?(\d{4,8})\b/g)].map(([, digits]) => digits ?? "")),
);

const atPlace = [
  "hover",
  "completion",
  "signatureHelp",
  "definition",
  "references",
  "documentHighlight",
  "prepareRename",
  "selectionRange",
];
const ofFile = [
  "codeAction",
  "codeLens",
  "inlayHint",
  "documentSymbol",
  "foldingRange",
  "documentLink",
  "semanticTokens/full",
  "diagnostic",
  "formatting",
];

/** All answers as one text, and the log. */
async function askEverywhere(
  file: string,
  text: string,
  everyNth: number,
  options: EditorOptions,
): Promise<{ answers: string; log: readonly string[] }> {
  const editor = await startEditor(files, options);
  const answers: unknown[] = [];
  try {
    const uri = await editor.open(file);
    await editor.type(file, text);
    await editor.workspace.indexed;
    const document = TextDocument.create(uri, "mullion", 1, text);
    const ask = (method: string, position: object, range: object) =>
      editor.client
        .sendRequest<unknown>(`textDocument/${method}`, {
          ...{ textDocument: { uri }, position, positions: [position], range },
          ...{ context: { diagnostics: [], includeDeclaration: true }, options: { tabSize: 2, insertSpaces: true } },
        })
        // A name that cannot be renamed is refused in words.
        .catch((error: Error) => error.message);
    const whole = { start: { line: 0, character: 0 }, end: document.positionAt(text.length) };
    for (const method of ofFile) answers.push(await ask(method, whole.start, whole));
    for (let offset = 0; offset <= text.length; offset += everyNth) {
      const position = document.positionAt(offset);
      answers.push(...(await Promise.all(atPlace.map(method => ask(method, position, { start: position, end: position })))));
    }
    for (const lens of answers[1] as CodeLens[]) answers.push(await editor.client.sendRequest(CodeLensResolveRequest.type, lens));
    for (const hint of (answers[2] as InlayHint[]).slice(0, 20))
      answers.push(await editor.client.sendRequest(InlayHintResolveRequest.type, hint));
    const lists = answers.filter(
      (answer): answer is CompletionList => (answer as CompletionList | null)?.items !== undefined && "isIncomplete" in (answer as object),
    );
    for (const item of lists.flatMap(({ items }) => items.slice(0, 2)).slice(0, 30))
      if ("label" in item) answers.push(await editor.client.sendRequest(CompletionResolveRequest.type, item));
    return { answers: JSON.stringify(answers), log: editor.log };
  } finally {
    await editor.end();
  }
}

test.each([...files.keys()])("%s as it is: no fault, and no code where codes are hidden", async file => {
  const { answers, log } = await askEverywhere(file, files.get(file) ?? "", 37, { settings: { maskCodes: true, inlayHints: "on" } });
  expect(log).toEqual([]);
  // The digits of an operation's example are made up; that a sample's holder has them too tells nobody anything.
  const said = answers.replaceAll(/For example: `[^`]*`/g, "");
  const shown = [...said.matchAll(/(?<!\d)\d{4,8}(?!\d)/g)]
    .filter(([digits]) => codes.has(digits))
    .map(({ index }) => said.slice(index - 40, index + 20));
  expect(shown).toEqual([]);
});

const wharf = files.get("/tannery-wharf/tannery-wharf.mullion") ?? "";
test.each([
  ["cut off in the middle of an entry", wharf.slice(0, wharf.indexOf("05 u5") + 3)],
  ["without its closing braces", wharf.replaceAll("}", "")],
  ["with a quote too many", wharf.replace('"Lane gate"', '"Lane gate')],
  ["with every holder's name missing", wharf.replaceAll(/^( +\d\d) \S+/gm, "$1")],
  ["of nothing but beginnings", "use\nsite\nholder\nkeypad\nmodel\nfitted\ndoor\nsupply\npolicy\nrelay\n"],
  ["of signs", '{}}{ : .. . + = , | * # % [ ] "\n\\ \u0000 \ud800 é 漢\r\n\t'],
  ["empty", ""],
])("a text %s: no fault", async (_what, text) => {
  const { log } = await askEverywhere("/tannery-wharf/tannery-wharf.mullion", text, 29, { settings: { inlayHints: "on" } });
  expect(log).toEqual([]);
});
