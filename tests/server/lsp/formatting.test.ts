/** The canonical layout from the editor: few and small edits, the file's own line ends, nothing while there are syntax errors. */

import { expect, test } from "vitest";
import {
  DocumentFormattingRequest,
  DocumentOnTypeFormattingRequest,
  DocumentRangeFormattingRequest,
  DocumentRangesFormattingRequest,
} from "vscode-languageserver/node";
import { TextDocument } from "vscode-languageserver-textdocument";
import { format } from "../../../grammar/format.ts";
import type { TextEditLike } from "./editor.ts";
import { inEditor } from "./editor.ts";

const options = { tabSize: 2, insertSpaces: true };
const untidy = 'holder  u1 "Unit 1"   code 4829 // first\nkeypad gate "Gate" : heron {\nrelay 1 "Foot gate" {\n1 u1\n}\n}\n';

function after(text: string, edits: readonly TextEditLike[] | null): string {
  return TextDocument.applyEdits(TextDocument.create("file:///a", "mullion", 1, text), [...(edits ?? [])]);
}

test.each([
  ["lines ended by a line feed", untidy],
  ["lines ended by carriage return and line feed", untidy.replaceAll("\n", "\r\n")],
])("document: %s", (_what, text) =>
  inEditor(text, async ({ client, uri, disk }) => {
    const before = disk.get("/main.mullion") ?? "";
    const edits = await client.sendRequest(DocumentFormattingRequest.type, { textDocument: { uri }, options });
    expect(edits?.length).toBeGreaterThan(2);
    expect(after(before, edits)).toBe(format(before));
    expect(edits?.every(({ newText }) => /^\s*$/.test(newText))).toBe(true);
  }),
);

test("document: a text that is in order gets no edit", () =>
  inEditor(untidy, async ({ client, uri, type }) => {
    await type("/main.mullion", format(untidy) ?? "");
    expect(await client.sendRequest(DocumentFormattingRequest.type, { textDocument: { uri }, options })).toEqual([]);
  }));

test("document: no edit while the text has syntax errors", () =>
  inEditor(`${untidy}holder\n`, async ({ client, uri }) => {
    expect(await client.sendRequest(DocumentFormattingRequest.type, { textDocument: { uri }, options })).toEqual([]);
  }));

test("range: the lines of the selection and no others", () =>
  inEditor(`$0holder  u1 "Unit 1"   code 4829$0\nholder   u2 "Unit 2"  code 5591\n`, async ({ client, uri, range, textOf }) => {
    const edits = await client.sendRequest(DocumentRangeFormattingRequest.type, { textDocument: { uri }, range, options });
    expect(after(textOf(uri), edits)).toBe('holder u1 "Unit 1" code 4829\nholder   u2 "Unit 2"  code 5591');
  }));

test("ranges: several at once", () =>
  inEditor(
    'holder  u1 "Unit 1" code 4829\nholder   u2 "Unit 2" code 5591\nholder   u3 "Unit 3" code 7304\n',
    async ({ client, uri, textOf }) => {
      const ranges = [0, 2].map(line => ({ start: { line, character: 0 }, end: { line, character: 5 } }));
      const edits = await client.sendRequest(DocumentRangesFormattingRequest.type, { textDocument: { uri }, ranges, options });
      expect(after(textOf(uri), edits)).toBe(
        'holder u1 "Unit 1" code 4829\nholder   u2 "Unit 2" code 5591\nholder u3 "Unit 3" code 7304\n',
      );
    },
  ));

test("on type: a line that is left is put in order, the next one is not touched", () =>
  inEditor('holder  u1 "Unit 1"   code 4829\n  $0\nholder   u2 "Unit 2" code 5591\n', async ({ client, uri, position, textOf }) => {
    const edits = await client.sendRequest(DocumentOnTypeFormattingRequest.type, { textDocument: { uri }, position, ch: "\n", options });
    expect(after(textOf(uri), edits).split("\n").slice(0, 3)).toEqual([
      'holder u1 "Unit 1" code 4829',
      "  ",
      'holder   u2 "Unit 2" code 5591',
    ]);
  }));

test("on type: a closing brace goes to its place", () =>
  inEditor('keypad gate "Gate" : heron {\n  relay 1 "Foot gate" {\n    1 u1\n    }$0\n}\n', async ({ client, uri, position, textOf }) => {
    const edits = await client.sendRequest(DocumentOnTypeFormattingRequest.type, { textDocument: { uri }, position, ch: "}", options });
    expect(after(textOf(uri), edits).split("\n")[3]).toBe("  }");
  }));
