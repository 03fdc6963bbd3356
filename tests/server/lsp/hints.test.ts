/** The keys at the end of each line, and what stands above each keypad. */

import { expect, test } from "vitest";
import { CodeLensRequest, CodeLensResolveRequest, InlayHintRequest, InlayHintResolveRequest } from "vscode-languageserver/node";
import { mullion } from "../../support/fixture.ts";
import type { EditorOptions, OpenFixture } from "./editor.ts";
import { inEditor } from "./editor.ts";

const site = mullion`
  //- main.mullion
  use "tiny.mullion"
  site "Tannery Wharf"
  holder u1 "Unit 1" code 4829
  holder u2 "Unit 2" code 5591
  holder firm "Our own codes" code gate 6044
  keypad plover "Plover" : tiny {
    installer code firm.gate
    relay 1 "Foot gate" {
      1 u1
      2 u2 // the sail loft
    }
  }
  //- main.fitted.mullion
  fitted plover 2026-11-20 {
    model tiny
    installer code 6044
    relay 1 {
      1 code 4829
    }
  }
`;

/** Lines with a hint, with the hint between `«` and `»`. */
async function hintedLines(editor: OpenFixture): Promise<string[]> {
  const text = editor.textOf(editor.uri);
  const lines = text.split("\n");
  const range = { start: { line: 0, character: 0 }, end: { line: lines.length, character: 0 } };
  const hints = (await editor.client.sendRequest(InlayHintRequest.type, { textDocument: { uri: editor.uri }, range })) ?? [];
  return hints.map(({ position, label }) => {
    const line = lines[position.line] ?? "";
    return `${line.slice(0, position.character)}«${label}»${line.slice(position.character)}`.trim();
  });
}

const checkHints = (expected: string[], options: EditorOptions) =>
  inEditor(site, async editor => expect(await hintedLines(editor)).toEqual(expected), options);

test("on what is not fitted yet, unless said otherwise", () => checkHints(["2 u2«1 2 5591 #» // the sail loft"], {}));
test("on every line", () =>
  checkHints(
    ["installer code firm.gate«4 [new installer code] [new installer code] #»", "1 u1«1 1 4829 #»", "2 u2«1 2 5591 #» // the sail loft"],
    {
      settings: { inlayHints: "on" },
    },
  ));
test("a release time has its keys past the brace, not before it", () =>
  inEditor(site.replace('"Foot gate" {', '"Foot gate" release 5s {'), async editor =>
    expect(await hintedLines(editor)).toContain('relay 1 "Foot gate" release 5s {«5 5 #»'),
  ));
test("off", () => checkHints([], { settings: { inlayHints: "off" } }));
test("with codes hidden", () => checkHints(["2 u2«1 2 •••• #» // the sail loft"], { settings: { maskCodes: true } }));

test("only in the part that is shown", () =>
  inEditor(
    site,
    async editor => {
      const range = { start: { line: 8, character: 0 }, end: { line: 8, character: 5 } };
      const hints = await editor.client.sendRequest(InlayHintRequest.type, { textDocument: { uri: editor.uri }, range });
      expect(hints?.map(({ label }) => label)).toEqual(["1 1 4829 #"]);
    },
    { settings: { inlayHints: "on" } },
  ));

test("a hint that is pointed at says what must be seen", () =>
  inEditor(site, async editor => {
    const range = { start: { line: 0, character: 0 }, end: { line: 20, character: 0 } };
    const [hint] = (await editor.client.sendRequest(InlayHintRequest.type, { textDocument: { uri: editor.uri }, range })) ?? [];
    if (!hint) throw new Error("there is no hint");
    const { tooltip } = await editor.client.sendRequest(InlayHintResolveRequest.type, hint);
    expect(tooltip).toMatchObject({ value: expect.stringContaining("Must be seen: **one beep**") });
  }));

async function lenses(editor: OpenFixture): Promise<string[]> {
  const found = (await editor.client.sendRequest(CodeLensRequest.type, { textDocument: { uri: editor.uri } })) ?? [];
  expect(found.every(({ command }) => command === undefined)).toBe(true);
  const resolved = await Promise.all(found.map(lens => editor.client.sendRequest(CodeLensResolveRequest.type, lens)));
  return resolved.map(({ command, range }) => `${range.start.line}: ${command?.title} (${command?.command})`);
}

test("above a keypad: entries to type, run sheet", () =>
  inEditor(site, async editor =>
    expect(await lenses(editor)).toEqual(["5: 1 entry to type (mullion.previewSheet)", "5: run sheet (mullion.exportSheet)"]),
  ));

test("an editor without our commands is told and not asked", () =>
  inEditor(site, async editor => expect(await lenses(editor)).toEqual(["5: 1 entry to type ()"]), { clientName: "another" }));

test("what an editor says that it can do is offered", () =>
  inEditor(
    site,
    async editor => expect(await lenses(editor)).toEqual(["5: 1 entry to type ()", "5: record as typed (mullion.recordAsTyped)"]),
    { commands: ["mullion.recordAsTyped"] },
  ));

test("a keypad whose sheet an error holds back says so, and offers neither a sheet nor its record", () =>
  inEditor(
    site.replace("2 u2", "1 u2"),
    async editor => expect(await lenses(editor)).toEqual(["5: no plan: an error holds its sheet back ()"]),
    { commands: ["mullion.previewSheet", "mullion.exportSheet", "mullion.recordAsTyped"] },
  ));
