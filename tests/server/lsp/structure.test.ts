/** The shape of a text in the editor: outline, symbols, folds, links, growing selections, colours. */

import { expect, test } from "vitest";
import type { DocumentSymbol, SelectionRange } from "vscode-languageserver/node";
import {
  DocumentLinkRequest,
  DocumentSymbolRequest,
  FoldingRangeRequest,
  SelectionRangeRequest,
  SemanticTokensDeltaRequest,
  SemanticTokensRangeRequest,
  SemanticTokensRequest,
  WorkspaceSymbolRequest,
} from "vscode-languageserver/node";
import { mullion } from "../../support/fixture.ts";
import type { OpenFixture } from "./editor.ts";
import { fileOf, inEditor, offsetsOf } from "./editor.ts";

const site = mullion`
  use "models/heron.mullion"
  use "people.mullion"

  // Who and where.
  // Ask the office.
  site "Tannery Wharf" {
    address "Slip Lane"
  }
  holder u3 "Unit 3, print room"
    code 4829
    tag bike 123,00334 lost
  keypad gate "Lane gate" : heron {
    relay 1 "Foot gate" {
      01 u3
      02 u3.bike
    }
    relay 2 spare
  }
`;

const outlineLines = (symbols: readonly DocumentSymbol[], depth = 0): string[] =>
  symbols.flatMap(({ name, detail, children }) => [
    "  ".repeat(depth) + name + (detail ? ` – ${detail}` : ""),
    ...outlineLines(children ?? [], depth + 1),
  ]);

async function checkOutline(text: string, expected: string): Promise<void> {
  await inEditor(text, async ({ client, uri }) => {
    const symbols = (await client.sendRequest(DocumentSymbolRequest.type, { textDocument: { uri } })) as DocumentSymbol[];
    expect(outlineLines(symbols).join("\n")).toBe(expected.replace(/^\n/, "").replace(/\n *$/, "").replaceAll(/^ {4}/gm, ""));
  });
}

test("document symbols: declarations and what is in them, no code", () =>
  checkOutline(
    site,
    `
    models/heron.mullion
    people.mullion
    Tannery Wharf
    u3 – Unit 3, print room
      code
      bike – lost
    gate – Lane gate
      relay 1 – Foot gate
        01 u3
        02 u3.bike
      relay 2
    `,
  ));

test("document symbols: while lines are half typed", () =>
  checkOutline(
    'holder\nholder u1\nkeypad gate "Gate" : {\n  relay 1 "Foot gate" {\n    01\n',
    `
    holder
    u1
    gate – Gate
      relay 1 – Foot gate
        01
    `,
  ));

test("workspace symbols: by name or label, in every file", () =>
  inEditor(`${site}`, async ({ client, workspace }) => {
    await workspace.indexed;
    const found = await client.sendRequest(WorkspaceSymbolRequest.type, { query: "gate" });
    expect((found ?? []).map(({ name, containerName }) => [name, containerName])).toEqual([
      ["gate Lane gate", undefined],
      ["relay 1 Foot gate", "gate"],
    ]);
  }));

/** Lines that stay while everything is folded. */
async function linesLeft({ client, uri, textOf }: OpenFixture): Promise<string[]> {
  const folds = (await client.sendRequest(FoldingRangeRequest.type, { textDocument: { uri } })) ?? [];
  return textOf(uri)
    .split("\n")
    .filter((_line, at) => !folds.some(({ startLine, endLine }) => startLine < at && at <= endLine));
}

test("folding: one line is left of each block, and its closing brace", () =>
  inEditor(site, async editor => {
    expect(await linesLeft(editor)).toEqual([
      'use "models/heron.mullion"',
      "",
      "// Who and where.",
      'site "Tannery Wharf" {',
      "}",
      'holder u3 "Unit 3, print room"',
      'keypad gate "Lane gate" : heron {',
      "}",
    ]);
  }));

test("links: the path of a use, without its quotes", () =>
  inEditor(site, async editor => {
    const links = (await editor.client.sendRequest(DocumentLinkRequest.type, { textDocument: { uri: editor.uri } })) ?? [];
    const shown = links.map(({ range, target }) => {
      const { start, end } = offsetsOf(editor, editor.uri, range);
      return [editor.textOf(editor.uri).slice(start, end), fileOf(target ?? "")];
    });
    expect(shown).toEqual([
      ["models/heron.mullion", "/models/heron.mullion"],
      ["people.mullion", "/people.mullion"],
    ]);
  }));

test("selection: word, credential, entry, block, relay, keypad, text", () =>
  inEditor(site.replace("02 u3.bike", "02 u3.bi$0ke"), async editor => {
    const [answer] = (await editor.client.sendRequest(SelectionRangeRequest.type, {
      textDocument: { uri: editor.uri },
      positions: [editor.position],
    })) as SelectionRange[];
    const grown: string[] = [];
    for (let range: SelectionRange | undefined = answer; range; range = range.parent) {
      const { start, end } = offsetsOf(editor, editor.uri, range.range);
      const text = editor.textOf(editor.uri).slice(start, end);
      grown.push(text.split("\n")[0] ?? "");
    }
    expect(grown.slice(0, 3)).toEqual(["bike", "u3.bike", "02 u3.bike"]);
    expect(grown.slice(3)).toContain('relay 1 "Foot gate" {');
    expect(grown.slice(3)).toContain('keypad gate "Lane gate" : heron {');
    expect(grown.at(-1)).toBe('use "models/heron.mullion"');
  }));

/** Each coloured word with its kind and modifiers. */
function words(editor: OpenFixture, data: readonly number[]): string[] {
  const legend = editor.server.capabilities.semanticTokensProvider?.legend;
  const lines = editor.textOf(editor.uri).split("\n");
  let [line, character] = [0, 0];
  return Array.from({ length: data.length / 5 }, (_, index) => {
    const [down = 0, right = 0, length = 0, type = 0, bits = 0] = data.slice(index * 5);
    character = down > 0 ? right : character + right;
    line += down;
    const modifiers = (legend?.tokenModifiers ?? []).filter((_modifier, bit) => bits & (1 << bit));
    return [lines[line]?.slice(character, character + length), legend?.tokenTypes[type], ...modifiers].join(" ");
  });
}

test("semantic tokens: a name is not the keyword it is spelt like", () =>
  inEditor(
    'holder code "Codes" code tag 123,00334 // so\nkeypad spare "S" : heron { relay 1 "G" { 01 code.tag 02 code } }',
    async editor => {
      const answer = await editor.client.sendRequest(SemanticTokensRequest.type, { textDocument: { uri: editor.uri } });
      expect(words(editor, answer?.data ?? [])).toEqual(
        expect.arrayContaining([
          "holder keyword",
          "code variable declaration",
          "code keyword",
          "spare class declaration",
          "heron type",
          "code variable",
        ]),
      );
    },
  ));

test("semantic tokens: a part of the file, and only what changed", () =>
  inEditor(site, async editor => {
    const all = await editor.client.sendRequest(SemanticTokensRequest.type, { textDocument: { uri: editor.uri } });
    const range = { start: { line: 8, character: 0 }, end: { line: 9, character: 0 } };
    const part = await editor.client.sendRequest(SemanticTokensRangeRequest.type, { textDocument: { uri: editor.uri }, range });
    expect(words(editor, part?.data ?? [])).toEqual(["holder keyword", "u3 variable declaration", '"Unit 3, print room" string']);
    await editor.type("/main.mullion", editor.textOf(editor.uri).replace("relay 2 spare", 'relay 2 "Porch" no codes'));
    const delta = await editor.client.sendRequest(SemanticTokensDeltaRequest.type, {
      textDocument: { uri: editor.uri },
      previousResultId: all?.resultId ?? "",
    });
    const edits = delta && "edits" in delta ? delta.edits : [];
    const data = [...(all?.data ?? [])];
    for (const { start, deleteCount, data: added } of [...edits].reverse()) data.splice(start, deleteCount, ...(added ?? []));
    const whole = await editor.client.sendRequest(SemanticTokensRequest.type, { textDocument: { uri: editor.uri } });
    expect(edits).not.toEqual([]);
    expect(data).toEqual(whole?.data);
  }));
