/** Sealed files over the protocol: what an editor sees before it has given an identity, and what after. */
import { execFileSync, spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { armor, Decrypter, Encrypter, generateX25519Identity, identityToRecipient } from "age-encryption";
import { afterEach, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { Diagnostic, Hover, ProtocolConnection, WorkspaceEdit } from "vscode-languageserver/node";
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter, Trace } from "vscode-languageserver/node";
import { parse } from "../../../grammar/parse.ts";
import type { Requests } from "../../../shared/requests.ts";
import { printNames } from "../../../shared/sealed/names.ts";
import { tiny } from "../../support/fixture.ts";
import { modern } from "./editor.ts";

const root = join(import.meta.dirname, "../../..");
const people = `holder u1 "Unit 1" code 4829
holder u2 "Unit 2" code 5591
holder firm "Our own codes" code gate 6044
`;
const main = `use "tiny.mullion"
use "people.mullion.age"
site "Tannery Wharf"
keypad plover "Plover" : tiny {
  installer code firm.gate
  relay 1 "Foot gate" release 5s {
    1 u1
    2 u2
  }
}
`;
const codes = ["4829", "5591", "6044"];

let folder: string;
let identity: string;
let client: ProtocolConnection;
/** All that the server ever said, on either stream. */
let said: string;
let stop: () => Promise<void>;

const uriOf = (name: string) => pathToFileURL(join(folder, name)).href;
const mainUri = () => uriOf("main.mullion");
const sealedUri = () => uriOf("people.mullion.age").replace("file:", "mullion-sealed:");
const bytesOf = (name: string) => readFileSync(join(folder, name));

async function sealedFor(recipients: readonly string[], text: string): Promise<Uint8Array> {
  const encrypter = new Encrypter();
  for (const recipient of recipients) encrypter.addRecipient(recipient);
  return encrypter.encrypt(text);
}

async function opened(bytes: Uint8Array): Promise<string> {
  const decrypter = new Decrypter();
  decrypter.addIdentity(identity);
  return decrypter.decrypt(bytes, "text");
}

beforeAll(() => {
  execFileSync(process.execPath, [join(root, ".ci/build.mjs"), "server", "age"], { stdio: ["ignore", "ignore", "inherit"] });
});
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "mullion sealed é-"));
  identity = await generateX25519Identity();
  const recipient = await identityToRecipient(identity);
  const bytes = await sealedFor([recipient], people);
  writeFileSync(join(folder, "tiny.mullion"), tiny);
  writeFileSync(join(folder, "main.mullion"), main);
  writeFileSync(join(folder, "people.mullion.age"), bytes);
  writeFileSync(join(folder, "people.recipients"), `# the firm\n${recipient}\n`);
  const sealedAs = { bytes: bytes.length, readers: "not compared here" };
  writeFileSync(join(folder, "people.names"), printNames(join(folder, "people.mullion.age"), parse(people).tree, sealedAs));

  const server = spawn(process.execPath, [join(root, "out/server.js"), "--stdio"]);
  said = "";
  server.stdout.on("data", chunk => (said += String(chunk)));
  server.stderr.on("data", chunk => (said += String(chunk)));
  const ended = new Promise<void>(resolve => server.on("exit", () => resolve()));
  client = createProtocolConnection(new StreamMessageReader(server.stdout), new StreamMessageWriter(server.stdin));
  client.onRequest<unknown, void>("client/registerCapability", () => null);
  client.onRequest<unknown, void>("workspace/configuration", ({ items }: { items: unknown[] }) => items.map(() => ({})));
  for (const refresh of ["diagnostic", "codeLens", "inlayHint"]) client.onRequest<null, void>(`workspace/${refresh}/refresh`, () => null);
  client.listen();
  await client.sendRequest("initialize", {
    processId: process.pid,
    rootUri: null,
    capabilities: modern,
    trace: "verbose",
    workspaceFolders: [{ uri: pathToFileURL(folder).href, name: "site" }],
    initializationOptions: { commands: ["mullion.exportSheet", "mullion.previewSheet", "mullion.recordAsTyped"] },
  });
  await client.sendNotification("initialized", {});
  await client.trace(Trace.Verbose, { log() {} });
  await open(mainUri(), main);
  stop = async () => {
    await client.sendRequest("shutdown");
    await client.sendNotification("exit");
    await ended;
    rmSync(folder, { recursive: true, force: true });
  };
});
afterEach(() => stop());

const ask = <M extends keyof Requests>(method: M, params: Requests[M]["params"]): Promise<Requests[M]["result"]> =>
  client.sendRequest(method, params);
const open = (uri: string, text: string) =>
  client.sendNotification("textDocument/didOpen", { textDocument: { uri, languageId: "mullion", version: 1, text } });
async function findings(uri: string): Promise<Diagnostic[]> {
  const report = await client.sendRequest<{ items?: Diagnostic[] }>("textDocument/diagnostic", { textDocument: { uri } });
  return report.items ?? [];
}
const codesOf = (found: readonly Diagnostic[]) => found.map(({ code }) => code);
const unlock = (content = identity) => ask("mullion/unlock", { secrets: [{ identities: content }] });

describe("before an identity is given", () => {
  test("names resolve, one finding says what was not looked at, and nothing that is said or asked for holds a code", async () => {
    const found = await findings(mainUri());
    expect(codesOf(found)).toEqual(["sealed-shut"]);
    const position = { line: 6, character: 6 };
    const textDocument = { uri: mainUri() };
    const range = { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } };
    const all = { textDocument, position, range, context: { diagnostics: found, includeDeclaration: true, triggerKind: 1 } };
    for (const [method, more] of [
      ["hover", {}],
      ["completion", {}],
      ["inlayHint", {}],
      ["codeLens", {}],
      ["codeAction", {}],
      ["definition", {}],
      ["references", {}],
      ["documentSymbol", {}],
      ["documentLink", {}],
      ["semanticTokens/full", {}],
      ["rename", { newName: "pottery" }],
      ["formatting", { options: { tabSize: 2, insertSpaces: true } }],
    ] as const)
      await client.sendRequest(`textDocument/${method}`, { ...all, ...more }).catch(() => {});
    await client.sendRequest("workspace/symbol", { query: "" });
    await client.sendRequest("workspace/diagnostic", { previousResultIds: [] });
    const keypads = ["plover"];
    const wanted: readonly (readonly [keyof Requests, object])[] = [
      ["mullion/sheet", { uri: mainUri(), keypads, from: "fitted", format: "html" }],
      ["mullion/preview", { uri: mainUri(), keypads, hideCodes: false }],
      ["mullion/paper", { uri: mainUri(), kind: "register", format: "html" }],
      ["mullion/waiting", { uri: mainUri() }],
      ["mullion/who", { uri: mainUri() }],
      ["mullion/record", { uri: mainUri(), keypad: "plover", done: "all", date: "2026-11-25" }],
      ["mullion/draw", { uri: mainUri(), holder: "u1" }],
      ["mullion/unseal", { uri: sealedUri() }],
      ["mullion/reseal", { uri: sealedUri(), text: 'holder u1 "Unit 1" code 7777\n' }],
    ];
    const answers: unknown[] = [];
    for (const [method, params] of wanted) answers.push(await client.sendRequest(method, params).catch((error: Error) => error.message));
    expect(JSON.stringify(answers[7])).toContain("no identity");
    expect(JSON.stringify(answers[8])).toContain("no identity");
    expect(await opened(bytesOf("people.mullion.age"))).toBe(people);
    for (const code of codes) expect(said).not.toContain(code);
  });

  test("a holder's name leads to the names beside the sealed file", async () => {
    const place = await client.sendRequest<{ uri: string }[]>("textDocument/definition", {
      textDocument: { uri: mainUri() },
      position: { line: 6, character: 6 },
    });
    expect(JSON.stringify(place)).toContain("people.names");
  });
});

describe("with the identity", () => {
  test("everything is checked, and the keys are there", async () => {
    expect(await unlock(`# made today\n${identity}\n`)).toEqual({});
    expect(codesOf(await findings(mainUri()))).toEqual([]);
    const hover = await client.sendRequest<Hover>("textDocument/hover", {
      textDocument: { uri: mainUri() },
      position: { line: 6, character: 6 },
    });
    expect(JSON.stringify(hover)).toContain("1 1 4829 #");
    expect(await ask("mullion/unseal", { uri: sealedUri() })).toEqual({ text: people });
  });

  test("the open text stands over the file, and a rename goes into it", async () => {
    await unlock();
    await open(sealedUri(), people.replace("5591", "559"));
    expect(codesOf(await findings(mainUri()))).toContain("code-length");
    const edit = await client.sendRequest<WorkspaceEdit>("textDocument/rename", {
      textDocument: { uri: mainUri() },
      position: { line: 6, character: 6 },
      newName: "pottery",
    });
    const edited =
      edit.documentChanges?.map(change => ("textDocument" in change ? change.textDocument.uri : "")) ?? Object.keys(edit.changes ?? {});
    expect(edited.sort()).toEqual([mainUri(), sealedUri()].sort());
  });

  test("what is saved is sealed for those on the list, with its names; what did not change is left alone", async () => {
    await unlock();
    const text = people.replace("5591", "8237").replace("holder u2", "holder pots");
    expect(await ask("mullion/reseal", { uri: sealedUri(), text })).toEqual({});
    const bytes = bytesOf("people.mullion.age");
    expect(await opened(bytes)).toBe(text);
    expect(bytesOf("people.names").toString()).toContain("pots");
    for (const code of [...codes, "8237"]) expect(bytesOf("people.names").toString()).not.toContain(code);
    expect(await ask("mullion/reseal", { uri: sealedUri(), text })).toEqual({});
    expect(bytesOf("people.mullion.age").equals(bytes)).toBe(true);
  });

  test("a request that lacks what it needs is refused, and the file stays as it is", async () => {
    await unlock();
    const before = bytesOf("people.mullion.age");
    for (const [method, params] of [
      ["mullion/reseal", { uri: sealedUri() }],
      ["mullion/reseal", { uri: sealedUri(), text: 7 }],
      ["mullion/reseal", { text: people }],
      ["mullion/unseal", {}],
      ["mullion/unlock", {}],
      ["mullion/unlock", { secrets: [{ identities: 7 }] }],
    ] as const)
      await expect(client.sendRequest(method, params)).rejects.toThrow("the request is not of the shape that the protocol gives it");
    expect(bytesOf("people.mullion.age").equals(before)).toBe(true);
  });

  test("of two passphrases the one that opened it seals it again", async () => {
    const sealedWith = new Encrypter();
    sealedWith.setPassphrase("second of two");
    sealedWith.setScryptWorkFactor(4);
    writeFileSync(join(folder, "people.mullion.age"), await sealedWith.encrypt(people));
    rmSync(join(folder, "people.names"));
    await ask("mullion/unlock", { secrets: [{ passphrase: "first of two" }, { passphrase: "second of two" }] });
    const text = people.replace("5591", "8237");
    expect(await ask("mullion/reseal", { uri: sealedUri(), text })).toEqual({});
    const decrypter = new Decrypter();
    decrypter.addPassphrase("second of two");
    expect(await decrypter.decrypt(bytesOf("people.mullion.age"), "text")).toBe(text);
  });

  test("taken back, the file is shut again", async () => {
    await unlock();
    expect(await findings(mainUri())).toEqual([]);
    await ask("mullion/unlock", { secrets: [] });
    expect(codesOf(await findings(mainUri()))).toEqual(["sealed-shut"]);
  });

  test("the bytes of the file are not taken for its text", async () => {
    await unlock();
    await open(uriOf("people.mullion.age"), "garbage \u0000 that an editor made of bytes");
    expect(await findings(mainUri())).toEqual([]);
  });
});

describe("what does not open it says why, and gives no part of the text", () => {
  const refused = async () => {
    const answer = await ask("mullion/unseal", { uri: sealedUri() });
    for (const code of codes) expect(said).not.toContain(code);
    return "refused" in answer ? answer.refused : "";
  };

  test("another identity", async () => {
    await unlock(await generateX25519Identity());
    expect(await refused()).toContain("the identity that was given does not open it");
  });

  test("what is no identity", async () => {
    expect((await unlock("AGE-SECRET-KEY-1QQQ")).refused).toContain("no identity");
  });

  test("an identity file under a passphrase asks for it, and is opened with it", async () => {
    const encrypter = new Encrypter();
    encrypter.setPassphrase("three lapwings");
    encrypter.setScryptWorkFactor(10);
    const content = armor.encode(await encrypter.encrypt(`${identity}\n`));
    expect(await unlock(content)).toEqual({ needsPassphrase: true });
    const wrong = await ask("mullion/unlock", { secrets: [{ identities: content, passphrase: "two lapwings" }] });
    expect(wrong.refused).toContain("passphrase");
    expect(await ask("mullion/unlock", { secrets: [{ identities: content, passphrase: "three lapwings" }] })).toEqual({});
    expect(await ask("mullion/unseal", { uri: sealedUri() })).toEqual({ text: people });
  });

  test("a damaged file, which is not written over either", async () => {
    await unlock();
    const bytes = bytesOf("people.mullion.age");
    bytes[bytes.length - 5] = (bytes[bytes.length - 5] ?? 0) ^ 1;
    writeFileSync(join(folder, "people.mullion.age"), bytes);
    expect(await refused()).toContain("damaged");
    expect((await ask("mullion/reseal", { uri: sealedUri(), text: people })).refused).toContain("is not written over");
    expect(bytesOf("people.mullion.age").equals(bytes)).toBe(true);
  });

  test("a file that is cut short", async () => {
    await unlock();
    writeFileSync(join(folder, "people.mullion.age"), bytesOf("people.mullion.age").subarray(0, -20));
    expect(await refused()).toContain("cut short");
  });
});
