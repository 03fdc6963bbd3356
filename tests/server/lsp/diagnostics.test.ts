/** Findings in the editor: pulled or pushed, never both; the same as on the command line; gone when their file is gone. */

import { expect, test } from "vitest";
import type { Diagnostic, PublishDiagnosticsParams } from "vscode-languageserver/node";
import {
  DocumentDiagnosticRequest,
  FileChangeType,
  PublishDiagnosticsNotification,
  WorkspaceDiagnosticRequest,
} from "vscode-languageserver/node";
import { findingsOf } from "../../../shared/checks/run.ts";
import type { Mark } from "../../support/fixture.ts";
import { fixture, markOf, mullion, siteOf, today, withMarks } from "../../support/fixture.ts";
import type { Editor, OpenFixture } from "./editor.ts";
import { inEditor, modern, offsetsOf, startEditor, uriOf } from "./editor.ts";

const pushed = { workspace: { configuration: true } };

const clash = mullion`
  use "tiny.mullion"
  site "Tannery Wharf"
  holder u1 "Unit 1" code 4829
  holder u2 "Unit 2" code 5591
  holder firm "Our own codes" code gate 6044
  keypad plover "Plover" : tiny {
    installer code firm.gate
    relay 1 "Foot gate" {
      1 u1
      1 u2
    //^ slot-clash
    }
  }
`;

async function pull(editor: Editor, uri: string, previousResultId?: string) {
  return editor.client.sendRequest(DocumentDiagnosticRequest.type, {
    textDocument: { uri },
    ...(previousResultId !== undefined && { previousResultId }),
  });
}

function marksOf(editor: Editor, uri: string, items: readonly Diagnostic[]): Mark[] {
  return items.map(item => {
    const finding = { ...offsetsOf(editor, uri, item.range), code: String(item.code), severity: "error" as const, message: "" };
    const text = editor.textOf(uri);
    return markOf({ ...finding, related: [], keypads: [], found: undefined }, { files: new Map([[finding.file, text]]) });
  });
}

async function checkPulled(text: string): Promise<void> {
  await inEditor(text, async editor => {
    const report = await pull(editor, editor.uri);
    const marks = marksOf(editor, editor.uri, report.kind === "full" ? report.items : []);
    expect(withMarks(editor.read, marks)).toBe(withMarks(editor.read, editor.read.marks));
  });
}

test("a pulled file has its findings", () => checkPulled(clash));

test("a finding has its explanation, its related place and its source", () =>
  inEditor(clash, async editor => {
    const report = await pull(editor, editor.uri);
    const item = report.kind === "full" ? report.items[0] : undefined;
    expect(item?.source).toBe("mullion");
    expect(item?.codeDescription?.href).toBe("command:mullion.explain?%5B%22slot-clash%22%5D");
    expect(item?.relatedInformation?.map(({ location }) => editor.textOf(location.uri).split("\n")[location.range.start.line])).toEqual([
      "    1 u1",
    ]);
  }));

test("the same findings again are unchanged; others are not", () =>
  inEditor(clash, async editor => {
    const first = await pull(editor, editor.uri);
    const again = await pull(editor, editor.uri, first.resultId);
    expect(again).toEqual({ kind: "unchanged", resultId: first.resultId });
    await editor.type("/main.mullion", editor.textOf(editor.uri).replace("1 u2", "2 u2"));
    const after = await pull(editor, editor.uri, first.resultId);
    expect(after).toMatchObject({ kind: "full", items: [] });
  }));

test("the workspace is held open until something changes, then tells only of what changed", () =>
  inEditor(clash, async editor => {
    const first = await editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    const ids = first.items.map(({ uri, resultId }) => ({ uri, value: resultId ?? "" }));
    expect(first.items.map(({ uri }) => uri).sort()).toEqual([uriOf("/main.mullion"), uriOf("/tiny.mullion")]);
    let answered = false;
    const held = editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: ids }).finally(() => {
      answered = true;
    });
    await new Promise(resolve => setTimeout(resolve, 300));
    expect(answered).toBe(false);
    await editor.type("/main.mullion", editor.textOf(editor.uri).replace("1 u2", "2 u2"));
    const second = await held;
    expect(second.items.map(({ uri, kind }) => [uri, kind])).toEqual([
      [uriOf("/main.mullion"), "full"],
      [uriOf("/tiny.mullion"), "unchanged"],
    ]);
  }));

test("a held workspace request can be cancelled", () =>
  inEditor(clash, async editor => {
    const first = await editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    const ids = first.items.map(({ uri, resultId }) => ({ uri, value: resultId ?? "" }));
    const { CancellationTokenSource } = await import("vscode-languageserver/node");
    const source = new CancellationTokenSource();
    const held = editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: ids }, source.token);
    setTimeout(() => source.cancel(), 50);
    await expect(held).rejects.toMatchObject({ code: -32800 });
  }));

test("a client that can pull is never pushed to", () => {
  const got: PublishDiagnosticsParams[] = [];
  const before = {
    before: (client: Editor["client"]) => void client.onNotification(PublishDiagnosticsNotification.type, params => void got.push(params)),
  };
  return inEditor(
    clash,
    async editor => {
      await pull(editor, editor.uri);
      await new Promise(resolve => setTimeout(resolve, 300));
      expect(got).toEqual([]);
      expect(editor.server.capabilities.diagnosticProvider).toMatchObject({ workspaceDiagnostics: true });
    },
    before,
  );
});

test("a client that cannot pull is pushed to, and told when the findings are gone", () => {
  const got: PublishDiagnosticsParams[] = [];
  const options = {
    client: pushed,
    before: (client: Editor["client"]) =>
      void client.onNotification(
        PublishDiagnosticsNotification.type,
        params => void (params.uri === uriOf("/main.mullion") && got.push(params)),
      ),
  };
  return inEditor(
    clash,
    async editor => {
      expect(editor.server.capabilities.diagnosticProvider).toBeUndefined();
      await expect.poll(() => got.at(-1)?.diagnostics.map(({ code }) => code)).toEqual(["slot-clash"]);
      await editor.type("/main.mullion", editor.textOf(editor.uri).replace("1 u2", "2 u2"));
      await expect.poll(() => got.at(-1)?.diagnostics).toEqual([]);
      expect(got.every(({ uri }) => uri === editor.uri)).toBe(true);
    },
    options,
  );
});

test("the side of a comparison has its syntax findings and no others", () =>
  inEditor(clash, async editor => {
    const uri = "git:/site/main.mullion?%7B%22ref%22%3A%22HEAD%22%7D";
    const text = `${editor.textOf(editor.uri)}\nholder\n`;
    await editor.client.sendNotification("textDocument/didOpen", { textDocument: { uri, languageId: "mullion", version: 1, text } });
    const report = await pull(editor, uri);
    expect(report.kind === "full" ? report.items.map(({ code }) => code) : report).toEqual(["syntax"]);
  }));

test("findings of an open file do not wait for the folder to be searched", () =>
  inEditor(
    clash,
    async editor => {
      const report = await pull(editor, editor.uri);
      expect(report.kind === "full" ? report.items.map(({ code }) => code) : report).toEqual(["slot-clash"]);
    },
    { host: { find: () => new Promise(() => undefined) } },
  ));

test("only the sites that use a changed file are checked again", async () => {
  const site = (name: string, model: string) => `use "${model}"\nsite "${name}"\nholder u1 "Unit 1" code 4829\n`;
  const files = new Map([
    ["/a.mullion", site("A", "tiny.mullion")],
    ["/b.mullion", site("B", "tiny.mullion")],
    ["/c.mullion", site("C", "other.mullion")],
    ["/other.mullion", fixture(`//- other.mullion\nmodel other "Other" {\n}`).files.get("/other.mullion") ?? ""],
  ]);
  const editor = await startEditor(files, { client: modern });
  try {
    await editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    const { checked } = editor.workspace.sites.counts;
    expect(checked).toBe(3);
    const uri = await editor.open("/c.mullion");
    await pull(editor, uri);
    expect(editor.workspace.sites.counts.checked).toBe(checked);
    await editor.type("/c.mullion", `${files.get("/c.mullion")}holder u2 "Unit 2" code 5591\n`);
    await pull(editor, uri);
    expect(editor.workspace.sites.counts.checked).toBe(checked + 1);
  } finally {
    await editor.end();
  }
});

test("fifty files moved at once leave no finding behind", async () => {
  const { files } = fixture(clash);
  const text = files.get("/main.mullion") ?? "";
  const many = Array.from({ length: 50 }, (_, index) => `/old/${index}.mullion`);
  const editor = await startEditor(new Map(many.map(file => [file, text.replace("tiny.mullion", "../tiny.mullion")])));
  try {
    const first = await editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    expect(first.items.filter(item => item.kind === "full" && item.items.length > 0)).toHaveLength(50);
    const ids = first.items.map(({ uri, resultId }) => ({ uri, value: resultId ?? "" }));
    const moved = many.map(file => file.replace("/old/", "/new/"));
    many.forEach((file, index) => {
      editor.disk.set(moved[index] ?? "", editor.disk.get(file) ?? "");
      editor.disk.delete(file);
    });
    await editor.touched(many, FileChangeType.Deleted);
    await editor.touched(moved, FileChangeType.Created);
    const second = await editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: ids });
    const withFindings = (folder: string) =>
      second.items.filter(item => item.uri.startsWith(uriOf(folder)) && item.kind === "full" && item.items.length > 0);
    expect(withFindings("/old/")).toHaveLength(0);
    expect(second.items.filter(item => item.uri.startsWith(uriOf("/old/")) && item.kind === "full")).toHaveLength(50);
    expect(withFindings("/new/")).toHaveLength(50);
  } finally {
    await editor.end();
  }
});

test("a folder that goes takes the findings of its files with it", async () => {
  const { files } = fixture(clash);
  const text = (files.get("/main.mullion") ?? "").replace("tiny.mullion", "../tiny.mullion");
  const editor = await startEditor(new Map([["/wharf/a.mullion", text]]));
  try {
    const first = await editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    const ids = first.items.map(({ uri, resultId }) => ({ uri, value: resultId ?? "" }));
    editor.disk.delete("/wharf/a.mullion");
    await editor.touched(["/wharf"], FileChangeType.Deleted);
    const second = await editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: ids });
    expect(second.items.find(({ uri }) => uri === uriOf("/wharf/a.mullion"))).toMatchObject({ kind: "full", items: [] });
  } finally {
    await editor.end();
  }
});

test("two folders with the same names do not know of each other", async () => {
  const site = (code: string) =>
    `use "../tiny.mullion"\nsite "Same"\nholder u1 "Unit 1" code ${code}\nholder u1 "Unit 1 again" code ${code}\n`;
  const files = new Map([
    ["/one/wharf.mullion", site("4829").split("\n").slice(0, 3).join("\n")],
    ["/two/wharf.mullion", site("5591")],
  ]);
  const editor = await startEditor(files, { folders: [uriOf("/one"), uriOf("/two")] });
  try {
    const report = await editor.client.sendRequest(WorkspaceDiagnosticRequest.type, { previousResultIds: [] });
    const codes = (file: string) =>
      report.items.flatMap(item => (item.uri === uriOf(file) && item.kind === "full" ? item.items.map(({ code }) => code) : []));
    expect(codes("/one/wharf.mullion")).not.toContain("name-twice");
    expect(codes("/two/wharf.mullion")).toContain("name-twice");
  } finally {
    await editor.end();
  }
});

test("what the editor shows is what the checks find", () =>
  inEditor(clash, async (editor: OpenFixture) => {
    const report = await pull(editor, editor.uri);
    const shown = report.kind === "full" ? report.items.map(({ code, message }) => [code, message]) : [];
    const found = findingsOf(siteOf({ ...editor.read, files: editor.disk }), { today });
    expect(shown).toEqual(found.filter(({ file }) => file === "/main.mullion").map(({ code, message }) => [code, message]));
  }));

test("what does nothing is faded", () =>
  inEditor(
    mullion`
      use "tiny.mullion"
      site "Tannery Wharf"
      holder u1 "Unit 1" code 4829 // allow near-codes: same household
    `,
    async editor => {
      const report = await pull(editor, editor.uri);
      const items = report.kind === "full" ? report.items : [];
      expect(items.find(({ code }) => code === "allow-unused")?.tags).toEqual([1]);
    },
  ));
