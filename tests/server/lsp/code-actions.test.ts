/** Ways out of a finding, from the editor. */

import { expect, test } from "vitest";
import type { CodeAction } from "vscode-languageserver/node";
import { CodeActionKind, CodeActionRequest, CodeActionResolveRequest, DocumentDiagnosticRequest } from "vscode-languageserver/node";
import { mullion } from "../../support/fixture.ts";
import type { OpenFixture } from "./editor.ts";
import { afterEdits, inEditor } from "./editor.ts";

const clash = (entries: string) => mullion`
  use "tiny.mullion"
  site "Tannery Wharf"
  holder u1 "Unit 1" code 4829
  holder u2 "Unit 2" code 5591
  holder u3 "Unit 3" code 7304
  holder firm "Our own codes" code gate 6044
  keypad plover "Plover" : tiny {
    installer code firm.gate
    relay 1 "Foot gate" {
      ${entries}
    }
  }
`;

async function actions(editor: OpenFixture, only?: string[]): Promise<CodeAction[]> {
  const context = { diagnostics: [], ...(only && { only }) };
  const { uri, range } = editor;
  return ((await editor.client.sendRequest(CodeActionRequest.type, { textDocument: { uri }, range, context })) ?? []) as CodeAction[];
}

async function codes(editor: OpenFixture): Promise<unknown[]> {
  const report = await editor.client.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri: editor.uri } });
  return report.kind === "full" ? report.items.map(({ code }) => code) : [];
}

test("a quick fix takes its finding away, though the client echoes none", () =>
  inEditor(clash("1 u1\n      $01 u2"), async editor => {
    expect(await codes(editor)).toContain("slot-clash");
    const found = await actions(editor);
    const fix = found.find(({ diagnostics }) => diagnostics?.[0]?.code === "slot-clash");
    expect(fix?.kind).toBe(CodeActionKind.QuickFix);
    const after = afterEdits(editor, fix?.edit).get("/main.mullion") ?? "";
    expect(after).toContain("2 u2");
    await editor.type("/main.mullion", after);
    expect(await codes(editor)).not.toContain("slot-clash");
  }));

test("an edit names the version that it was worked out for", () =>
  inEditor(clash("1 u1\n      $01 u2"), async editor => {
    const [fix] = await actions(editor);
    expect(fix?.edit?.documentChanges?.[0]).toMatchObject({ textDocument: { uri: editor.uri, version: expect.any(Number) } });
  }));

test("a title never has a code in it", () =>
  inEditor(clash("1 u1\n      $01 u2\n      9 u3$0"), async editor => {
    for (const { title } of await actions(editor)) expect(title).not.toMatch(/4829|5591|7304|6044/);
  }));

test("nothing where nothing is found", () =>
  inEditor(clash("1 u1\n      2 $0u2\n      3 u3"), async editor => expect(await actions(editor)).toEqual([])));

test("fix all is offered only when it is asked for, and changes only what is safe", () =>
  inEditor(clash("1 u1\n      2 $0u2\n      3 u3"), async editor => {
    const all = await actions(editor, [CodeActionKind.SourceFixAll]);
    expect(all).toEqual([]);
  }));

test("a quick fix works beside a half-typed line", () =>
  inEditor(clash("1 u1\n      $01 u2\n      3"), async editor => {
    const fix = (await actions(editor)).find(({ diagnostics }) => diagnostics?.[0]?.code === "slot-clash");
    expect(afterEdits(editor, fix?.edit).get("/main.mullion")).toContain("2 u2");
  }));

test("a new code is drawn only once its fix is chosen, for the code that is weak", () =>
  inEditor(clash("1 $0u1\n      2 u2\n      3 u3").replace("code 4829", "code 1234"), async editor => {
    const line = editor
      .textOf(editor.uri)
      .split("\n")
      .findIndex(each => each.includes("1234"));
    const range = { start: { line, character: 0 }, end: { line, character: 40 } };
    const fix = (await actions({ ...editor, range })).find(({ title }) => title.startsWith("Draw a new code"));
    if (!fix) throw new Error("nothing is offered for a weak code");
    expect(fix.edit).toBeUndefined();
    const { edit } = await editor.client.sendRequest(CodeActionResolveRequest.type, fix);
    const after = afterEdits(editor, edit).get("/main.mullion") ?? "";
    expect(after).toMatch(/holder u1 "Unit 1" code \d{4}\n/);
    expect(after).not.toContain("1234");
    await editor.type("/main.mullion", after);
    expect(await codes(editor)).toEqual([]);
  }));

test("a holder who leaves is taken out of every keypad, from the line that declares them", () =>
  inEditor(
    mullion`
      use "tiny.mullion"
      site "Tannery Wharf"
      holder u1 "Uni$0t 1" code 4829
      holder u2 "Unit 2" code 5591
      keypad plover "Plover" : tiny {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
          2 u2
        }
      }
    `,
    async editor => {
      const [leaving] = await actions(editor, [CodeActionKind.Refactor]);
      expect(leaving?.title).toBe("Take Unit 1 out of every keypad");
      const after = afterEdits(editor, leaving?.edit).get("/main.mullion") ?? "";
      expect(after).not.toContain("1 u1");
      expect(after).toContain("2 u2");
      expect(after).toContain('holder u1 "Unit 1"');
    },
  ));
