/** What random edits and malformed messages have found, each as the shortest session that shows it. */
import { expect, test } from "vitest";
import type { Client } from "./client.ts";
import { wrongResult } from "./protocol/conforms.ts";
import { folder, started } from "./world.ts";

const pulls = { workspace: { workspaceFolders: true }, textDocument: { diagnostic: {} } };
const twice = 'holder u1 "Unit 1" code 4829\nholder u1 "Unit 1" code 5591\n';
const holder = `use "models/m.mullion"\n${twice}`;

async function inSession(disk: Map<string, string>, work: (client: Client) => Promise<void>): Promise<void> {
  const client = await started(disk, pulls, [folder]);
  try {
    await work(client);
    expect(client.wrong).toEqual([]);
  } finally {
    await client.end();
  }
}

async function codesIn(client: Client, uri: string): Promise<readonly string[]> {
  await client.workspace.indexed;
  const { items } = await client.ask<{ items: readonly { code: string }[] }>("textDocument/diagnostic", { textDocument: { uri } });
  return items.map(({ code }) => code);
}

const main = `${folder}/sites/main.mullion`;
const model = `${folder}/models/m.mullion`;

test("a folder that goes or comes is missed by a site that uses what is in it, be it outside every open folder", async () => {
  const disk = new Map([
    [main, holder.replace("models", "../models")],
    [model, "// nothing\n"],
  ]);
  await inSession(disk, async client => {
    const named = (uri: string) => [{ uri, name: uri }];
    client.notify("workspace/didChangeWorkspaceFolders", { event: { added: named(`${folder}/sites`), removed: named(folder) } });
    expect(await codesIn(client, main)).toEqual(["name-twice"]);
    disk.delete(model);
    client.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: `${folder}/models`, type: 3 }] });
    expect(await codesIn(client, main)).toEqual(["use-missing", "name-twice"]);
    disk.set(model, "// nothing\n");
    client.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: `${folder}/models`, type: 1 }] });
    expect(await codesIn(client, main)).toEqual(["name-twice"]);
  });
});

test("a folder that goes while no open file needs it is missed by the one that is opened later", async () => {
  const disk = new Map([
    [main, holder.replace("models", "../models")],
    [model, "// nothing\n"],
  ]);
  await inSession(disk, async client => {
    const named = (uri: string) => [{ uri, name: uri }];
    expect(await codesIn(client, main)).toEqual(["name-twice"]);
    client.notify("workspace/didChangeWorkspaceFolders", { event: { added: [], removed: named(folder) } });
    expect(await client.ask("workspace/symbol", { query: "" })).toEqual([]);
    disk.delete(model);
    client.notify("workspace/didChangeWatchedFiles", { changes: [{ uri: `${folder}/models`, type: 3 }] });
    client.notify("textDocument/didOpen", { textDocument: { uri: main, languageId: "mullion", version: 1, text: disk.get(main) } });
    expect(await codesIn(client, main)).toEqual(["use-missing", "name-twice"]);
  });
});

test("a message that is not of its shape changes nothing, and is refused in words or passed over with a word in the log", async () => {
  await inSession(new Map([[main, twice]]), async client => {
    client.notify("textDocument/didOpen", { textDocument: { uri: 7 } });
    client.notify("textDocument/didOpen", { textDocument: { uri: "file:///x.mullion" } });
    client.notify("textDocument/didChange", { textDocument: { uri: main }, contentChanges: [{ text: 7 }] });
    client.notify("workspace/didChangeWatchedFiles", { changes: [null] });
    client.notify("workspace/didChangeWorkspaceFolders", {});
    expect(await codesIn(client, main)).toEqual(["name-twice"]);
    expect([...client.workspace.texts.allOpened()]).toEqual([]);
    for (const position of [{ line: 0.5, character: 0 }, { line: -1, character: 0 }, null]) {
      const { error } = await client.request("textDocument/hover", { textDocument: { uri: main }, position }).answer;
      expect(error?.code).toBe(-32602);
    }
    expect((await client.request("textDocument/hover", {}).answer).error?.code).toBe(-32602);
    expect(client.log.filter(line => line.includes("a fault of its own"))).toEqual([]);
  });
});

test("a server is initialized once", async () => {
  await inSession(new Map([[main, holder]]), async client => {
    const again = await client.request("initialize", { processId: null, rootUri: null, capabilities: {} }).answer;
    expect(again.error?.code).toBe(-32600);
    client.notify("initialized", {});
    expect(await codesIn(client, main)).toEqual(["use-missing", "name-twice"]);
  });
});

test("a document that lies nowhere has no links to what would lie beside it", async () => {
  await inSession(new Map(), async client => {
    const uri = "untitled:Untitled-1";
    client.notify("textDocument/didOpen", { textDocument: { uri, languageId: "mullion", version: 1, text: holder } });
    expect(await client.ask("textDocument/documentLink", { textDocument: { uri } })).toEqual([]);
  });
});

test("what the protocol does not allow is seen", () => {
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } };
  expect(wrongResult("textDocument/hover", { contents: { kind: "markdown", value: "x" }, range })).toBeUndefined();
  expect(wrongResult("textDocument/hover", { contents: { kind: "markdown", value: 7 } })).toMatch(/contents/);
  expect(wrongResult("textDocument/hover", { contents: "x", range: { ...range, end: { line: -1, character: 0 } } })).toBe(
    "result.range.end.line: not uinteger",
  );
  expect(wrongResult("textDocument/foldingRange", [{ startLine: 0 }])).toBe("result[0].endLine: missing");
  expect(wrongResult("textDocument/documentLink", [{ range, target: "x.mullion" }])).toBe("result[0].target: not URI");
  expect(wrongResult("textDocument/codeLens", [{ range, colour: "red" }])).toBe("result[0].colour: the protocol does not know it");
});
