/** What the server must not do: be loud, leak a code, work for nobody, speak to a network, or answer what it does not know. */
import { readFileSync } from "node:fs";
import net from "node:net";
import { afterEach, expect, test, vi } from "vitest";
import * as protocol from "vscode-languageserver/node";
import { CancellationTokenSource, HoverRequest, LSPErrorCodes } from "vscode-languageserver/node";
import { describeFault } from "../../../server/lsp/faults.ts";
import { mullion, tiny } from "../../support/fixture.ts";
import { inEditor, modern, startEditor, uriOf } from "./editor.ts";

const site = mullion`
  use "tiny.mullion"
  site "Tannery Wharf"
  holder u1 "Unit 1" code 4829
  keypad plover "Plover" : tiny {
    relay 1 "Foot gate" {
      1 $0u1
    }
  }
`;

afterEach(() => vi.restoreAllMocks());

test("a fault is logged without any code, answered empty, and told once", () =>
  inEditor(
    site,
    async editor => {
      const hover = { textDocument: { uri: editor.uri }, position: editor.position };
      expect(await editor.client.sendRequest(HoverRequest.type, hover)).toBeNull();
      expect(await editor.client.sendRequest(HoverRequest.type, hover)).toBeNull();
      await expect.poll(() => editor.log.filter(line => line.startsWith("hover: ")).length).toBe(2);
      expect(editor.log.filter(line => line.startsWith("shown: "))).toHaveLength(1);
      expect(editor.log.join("\n")).not.toContain("4829");
    },
    {
      host: {
        today: () => {
          throw new Error('no day for "code 4829" nor 4829');
        },
      },
    },
  ));

test("a site that cannot be had takes no other with it", () =>
  inEditor(
    site,
    async editor => {
      await editor.workspace.indexed;
      const hover = await editor.client.sendRequest(HoverRequest.type, { textDocument: { uri: editor.uri }, position: editor.position });
      expect(JSON.stringify(hover)).toContain("Foot gate");
      await expect.poll(() => editor.log.some(line => line.startsWith("reading a site: "))).toBe(true);
    },
    { host: { find: async () => [uriOf("/tiny.mullion"), uriOf("/wharf.mullion")], read: readAllBut("/gone/broken.mullion") } },
  ));

/** A disk of the small model and a site that uses a file whose reading fails. */
function readAllBut(file: string): (asked: string) => Promise<string | undefined> {
  return async asked => {
    if (asked === uriOf(file)) throw new Error("the disk is gone");
    if (asked === uriOf("/tiny.mullion")) return tiny;
    return asked === uriOf("/wharf.mullion") ? `use "${file.slice(1)}"\nsite "Wharf"\n` : undefined;
  };
}

test("a fault in words keeps where it arose", () => {
  const words = describeFault("hover", new TypeError('no 48291 in "holder u1 code 4829"'));
  expect(words.split("\n")[0]).toBe('hover: TypeError: no … in "…"');
  expect(words).toMatch(/quiet\.test\.ts:\d+/);
});

test("a cancelled request says so", () =>
  inEditor(site, async editor => {
    const source = new CancellationTokenSource();
    const asked = editor.client.sendRequest(
      HoverRequest.type,
      { textDocument: { uri: editor.uri }, position: editor.position },
      source.token,
    );
    source.cancel();
    await expect(asked).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
  }));

test("an answer for a text that has changed meanwhile is not given", () => {
  let go: () => void = () => undefined;
  const slow = new Promise<void>(resolve => {
    go = resolve;
  });
  return inEditor(
    site,
    async editor => {
      const asked = editor.client.sendRequest(HoverRequest.type, { textDocument: { uri: editor.uri }, position: editor.position });
      await new Promise(resolve => setTimeout(resolve, 20));
      await editor.type("/main.mullion", "// nothing\n");
      await expect.poll(() => editor.workspace.file(editor.uri)?.source.text).toBe("// nothing\n");
      go();
      await expect(asked).rejects.toMatchObject({ code: LSPErrorCodes.ContentModified });
    },
    {
      host: {
        find: () => new Promise(() => undefined),
        read: async () => {
          await slow;
          return undefined;
        },
      },
    },
  );
});

test("no work for a document that is closed, nor for the side of a comparison", () =>
  inEditor(site, async editor => {
    const git = "git:/site/main.mullion?HEAD";
    await editor.client.sendNotification("textDocument/didOpen", {
      textDocument: { uri: git, languageId: "mullion", version: 1, text: editor.textOf(editor.uri) },
    });
    await editor.close("/main.mullion");
    const { checked } = editor.workspace.sites.counts;
    for (const uri of [editor.uri, git])
      expect(await editor.client.sendRequest(HoverRequest.type, { textDocument: { uri }, position: editor.position })).toBeNull();
    expect(editor.workspace.sites.counts.checked).toBe(checked);
  }));

test("files of others that come and go disturb nobody", () => {
  const refreshed: string[] = [];
  const searched: string[] = [];
  const client = { ...modern, workspace: { ...modern.workspace, diagnostics: { refreshSupport: true } } };
  const before = (connection: protocol.ProtocolConnection) =>
    connection.onRequest<null, void>("workspace/diagnostic/refresh", () => {
      refreshed.push("diagnostics");
      return null;
    });
  return inEditor(
    site,
    async editor => {
      await expect.poll(() => refreshed.length).toBe(1);
      const { revision } = editor.workspace.texts;
      await editor.touched(["/node_modules/heron/index.js", "/notes.txt", "/build"], protocol.FileChangeType.Deleted);
      await editor.touched(["/node_modules", "/.git", "/out", "/notes.txt"], protocol.FileChangeType.Created);
      await new Promise(resolve => setTimeout(resolve, 300));
      expect(refreshed).toHaveLength(1);
      expect(searched).toEqual([uriOf(""), uriOf("/out")]);
      expect(editor.workspace.texts.revision).toBe(revision);
      await editor.touched(["/tiny.mullion"], protocol.FileChangeType.Changed);
      await expect.poll(() => refreshed.length).toBe(2);
    },
    {
      client,
      before,
      host: {
        find: async folder => {
          searched.push(folder);
          return folder === uriOf("") ? [uriOf("/main.mullion"), uriOf("/tiny.mullion")] : [];
        },
      },
    },
  );
});

test("files that the server cannot read are asked of the editor", async () => {
  const files = new Map([
    ["memfs:/site/main.mullion", 'use "people.mullion"\nsite "W"\nkeypad g "G" : heron { installer code u1.gate }'],
    ["memfs:/site/people.mullion", 'holder u1 "Unit 1" code gate 6044'],
  ]);
  const asked: string[] = [];
  const editor = await startEditor(new Map(), {
    folders: ["memfs:/site"],
    host: { reads: () => false },
    before: client => {
      client.onRequest<unknown, void>("mullion/findFiles", () => ({ uris: [...files.keys()] }));
      client.onRequest<unknown, void>("mullion/readFile", ({ uri }: { uri: string }) => {
        asked.push(uri);
        return { text: files.get(uri) ?? null };
      });
    },
  });
  try {
    const uri = "memfs:/site/main.mullion";
    const text = files.get(uri) ?? "";
    await editor.client.sendNotification("textDocument/didOpen", { textDocument: { uri, languageId: "mullion", version: 1, text } });
    const found = await editor.client.sendRequest(protocol.DefinitionRequest.type, {
      textDocument: { uri },
      position: { line: 2, character: text.split("\n")[2]?.indexOf("u1") ?? 0 },
    });
    expect([found].flat()).toMatchObject([{ uri: "memfs:/site/people.mullion" }]);
    expect(asked).toContain("memfs:/site/people.mullion");
  } finally {
    await editor.end();
  }
});

test("no socket is opened, nothing is fetched", async () => {
  const connect = vi.spyOn(net.Socket.prototype, "connect").mockImplementation(() => {
    throw new Error("a socket was opened");
  });
  const fetched = vi.spyOn(globalThis, "fetch").mockRejectedValue(new Error("something was fetched"));
  await inEditor(site, async editor => {
    for (const method of answered) await editor.client.sendRequest(method, paramsFor(editor.uri)).catch(() => undefined);
  });
  expect(connect).not.toHaveBeenCalled();
  expect(fetched).not.toHaveBeenCalled();
});

/** Every request that the protocol lets a client send, by reflection of the protocol package. */
const known = Object.values(protocol as unknown as Record<string, { type?: { method?: string }; messageDirection?: string } | undefined>)
  .filter(each => each?.type?.method !== undefined && each.messageDirection !== "serverToClient")
  .map(each => each?.type?.method ?? "");

/** What the server is registered for; a new feature adds its line. */
const answered = [
  "codeAction/resolve",
  "codeLens/resolve",
  "completionItem/resolve",
  "inlayHint/resolve",
  "textDocument/codeAction",
  "textDocument/codeLens",
  "textDocument/completion",
  "textDocument/definition",
  "textDocument/diagnostic",
  "textDocument/documentHighlight",
  "textDocument/documentLink",
  "textDocument/documentSymbol",
  "textDocument/foldingRange",
  "textDocument/formatting",
  "textDocument/hover",
  "textDocument/inlayHint",
  "textDocument/onTypeFormatting",
  "textDocument/prepareRename",
  "textDocument/rangeFormatting",
  "textDocument/rangesFormatting",
  "textDocument/references",
  "textDocument/rename",
  "textDocument/selectionRange",
  "textDocument/semanticTokens/full",
  "textDocument/semanticTokens/full/delta",
  "textDocument/semanticTokens/range",
  "textDocument/signatureHelp",
  "workspace/diagnostic",
  "workspace/symbol",
  "workspace/willRenameFiles",
];

/** Whatever a request may ask for, so that every handler finds what it needs. */
function paramsFor(uri: string): object {
  const position = { line: 5, character: 6 };
  const range = { start: { line: 0, character: 0 }, end: position };
  return {
    ...{ textDocument: { uri }, position, range, ranges: [range], positions: [position], ch: "}", newName: "other", query: "" },
    ...{ context: { diagnostics: [], includeDeclaration: true, triggerKind: 1 }, files: [], previousResultIds: [], previousResultId: "" },
    ...{ options: { tabSize: 2, insertSpaces: true }, data: { uri, keypad: "plover", says: "sheet", start: 0 }, label: "" },
  };
}

test("what is answered is known to the protocol, and what is not answered is not claimed", async () => {
  expect(known.length).toBeGreaterThan(40);
  expect(answered.filter(method => !known.includes(method))).toEqual([]);
  await inEditor(site, async editor => {
    const mine: string[] = [];
    const requests = known.filter(method =>
      /^(textDocument|workspace|codeLens|inlayHint|completionItem|codeAction|documentLink|workspaceSymbol)\//.test(method),
    );
    for (const method of new Set(requests)) {
      const answer = await editor.client.sendRequest(method, paramsFor(uriOf("/main.mullion"))).then(
        () => "answered",
        (error: { code?: number }) => (error.code === protocol.ErrorCodes.MethodNotFound ? "unknown" : "answered"),
      );
      if (answer === "answered") mine.push(method);
    }
    expect(mine.sort()).toEqual([...answered].sort());
  });
});

test("what is asked of our own is what the list of requests says, no more and no less", async () => {
  const list = readFileSync(new URL("../../../shared/requests.ts", import.meta.url), "utf8");
  const block = list.slice(list.indexOf("interface Requests"), list.indexOf("interface Questions"));
  const listed = [...block.matchAll(/"(mullion\/\w+)"/g)].map(([, method]) => method ?? "");
  expect(listed.length).toBeGreaterThan(5);
  await inEditor(site, async editor => {
    for (const method of [...listed, "mullion/nothing"]) {
      const code = await editor.client.sendRequest(method, { uri: editor.uri, format: "md", code: "syntax", name: "", keypad: "" }).then(
        () => 0,
        (error: { code?: number }) => error.code,
      );
      expect(code === protocol.ErrorCodes.MethodNotFound, method).toBe(method === "mullion/nothing");
    }
  });
});
