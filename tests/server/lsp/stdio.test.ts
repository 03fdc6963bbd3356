/** The built server as a process of its own, as any editor starts it: over standard input and output, and with no way to a network. */
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { beforeAll, expect, test } from "vitest";
import {
  createProtocolConnection,
  DidOpenTextDocumentNotification,
  DocumentDiagnosticRequest,
  ExitNotification,
  HoverRequest,
  InitializedNotification,
  InitializeRequest,
  ShutdownRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import { tiny } from "../../support/fixture.ts";
import { modern } from "./editor.ts";

const root = join(import.meta.dirname, "../../..");

beforeAll(() => {
  execFileSync(process.execPath, [join(root, ".ci/build.mjs"), "server"], { stdio: ["ignore", "ignore", "inherit"] });
});

/** Ends the process with a status of its own as soon as anything reaches for a network. */
const noNetwork = `
  const refuse = () => process.exit(99);
  const net = require("node:net");
  net.Socket.prototype.connect = refuse;
  net.Server.prototype.listen = refuse;
  require("node:dgram").createSocket = refuse;
  require("node:dns").lookup = refuse;
  globalThis.fetch = refuse;
`;

test("starts, finds, answers and ends", async () => {
  const folder = mkdtempSync(join(tmpdir(), "mullion lsp é-"));
  const text = [
    'use "tiny.mullion"',
    'site "Tannery Wharf"',
    'holder u1 "Unit 1" code 4829',
    'holder u2 "Unit 2" code 5591',
    'keypad plover "Plover" : tiny {',
    '  relay 1 "Foot gate" {',
    "    1 u1",
    "    1 u2",
    "  }",
    "}",
    "",
  ].join("\r\n");
  writeFileSync(join(folder, "tiny.mullion"), tiny);
  writeFileSync(join(folder, "main.mullion"), text);
  writeFileSync(join(folder, "no-network.cjs"), noNetwork);
  const server = spawn(process.execPath, ["--require", join(folder, "no-network.cjs"), join(root, "out/server.js"), "--stdio"]);
  const errors: string[] = [];
  server.stderr.on("data", chunk => errors.push(String(chunk)));
  const ended = new Promise<number | null>(resolve => server.on("exit", resolve));
  const client = createProtocolConnection(new StreamMessageReader(server.stdout), new StreamMessageWriter(server.stdin));
  client.onRequest<unknown, void>("client/registerCapability", () => null);
  client.onRequest<unknown, void>("workspace/configuration", ({ items }: { items: unknown[] }) => items.map(() => ({})));
  client.onRequest<unknown, void>("workspace/diagnostic/refresh", () => null);
  client.listen();
  try {
    const folderUri = pathToFileURL(folder).href;
    const uri = pathToFileURL(join(folder, "main.mullion")).href;
    const answer = await client.sendRequest(InitializeRequest.type, {
      processId: process.pid,
      rootUri: null,
      capabilities: modern,
      workspaceFolders: [{ uri: folderUri, name: "site" }],
    });
    expect(answer.serverInfo?.name).toBe("mullion");
    await client.sendNotification(InitializedNotification.type, {});
    await client.sendNotification(DidOpenTextDocumentNotification.type, { textDocument: { uri, languageId: "mullion", version: 1, text } });
    const report = await client.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri } });
    const clash = report.kind === "full" ? report.items.find(({ code }) => code === "slot-clash") : undefined;
    expect(clash?.range).toEqual({ start: { line: 7, character: 4 }, end: { line: 7, character: 5 } });
    const hover = await client.sendRequest(HoverRequest.type, { textDocument: { uri }, position: { line: 6, character: 5 } });
    expect(JSON.stringify(hover)).toContain("1 1 4829 #");
    await client.sendRequest(ShutdownRequest.type);
    await client.sendNotification(ExitNotification.type);
    expect(await ended).toBe(0);
    expect(errors.join("")).toBe("");
  } finally {
    server.kill();
    client.dispose();
    rmSync(folder, { recursive: true });
  }
});
