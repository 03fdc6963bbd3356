/** The language server as it is packed, in a worker of a real browser: where the editor is a web page, and no file can be read. */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Screen } from "./browser.ts";
import { openScreen } from "./browser.ts";

const root = join(import.meta.dirname, "../..");
const folder = "memory://sites";
const files: Record<string, string> = {
  [`${folder}/tiny.mullion`]: readFileSync(join(root, "tests/support/tiny.mullion"), "utf8"),
};
const site = `use "tiny.mullion"
site "Tannery Wharf"
holder u1 "Unit 1" code 4829
holder u2 "Unit 2" code 5591
keypad plover "Plover" : tiny {
  relay 1 "Foot gate" {
    1 u1
    1 u2
  }
}
`;

let screen: Screen;
beforeAll(async () => {
  execFileSync(process.execPath, [join(root, ".ci/build.mjs"), "server"], { stdio: ["ignore", "ignore", "inherit"] });
  screen = await openScreen();
}, 60_000);
afterAll(() => screen.close());

interface Message {
  readonly id?: number | string;
  readonly method?: string;
  readonly params?: { readonly uri?: string };
  readonly result?: unknown;
  readonly error?: { readonly message: string };
}

/** A worker with the server in it, and this side of the protocol. */
async function started(page: Page) {
  const waiting = new Map<number, (answer: Message) => void>();
  let said = 0;
  const send = (message: object) =>
    page.evaluate(each => (globalThis as unknown as { server: Worker }).server.postMessage(each), { jsonrpc: "2.0", ...message });
  await page.exposeFunction("heard", async (message: Message) => {
    if (message.method === undefined) return waiting.get(Number(message.id))?.(message);
    if (message.id === undefined) return;
    const text = files[message.params?.uri ?? ""];
    const result =
      message.method === "mullion/readFile"
        ? { text: text ?? null }
        : message.method === "mullion/findFiles"
          ? { uris: Object.keys(files) }
          : message.method === "workspace/configuration"
            ? [{}]
            : null;
    await send({ id: message.id, result });
  });
  await page.evaluate(
    script => {
      const server = new Worker(URL.createObjectURL(new Blob([script], { type: "text/javascript" })));
      const world = globalThis as unknown as { server: Worker; heard: (message: unknown) => void };
      world.server = server;
      server.onmessage = ({ data }) => world.heard(data);
      server.onerror = event => console.error(`the worker failed: ${event.message}`);
    },
    readFileSync(join(root, "out/server.js"), "utf8"),
  );
  return {
    tell: (method: string, params: object) => send({ method, params }),
    async ask(method: string, params: object): Promise<unknown> {
      const id = ++said;
      const answered = new Promise<Message>(resolve => waiting.set(id, resolve));
      await send({ id, method, params });
      const { result, error } = await answered;
      if (error) throw new Error(error.message);
      return result;
    },
  };
}

test("finds what is wrong, and knows the keys, of files that only the editor can read", async () => {
  const { page, complaints } = await screen.show("<!doctype html><title>An editor</title>");
  const { ask, tell } = await started(page);
  const workspaceFolders = [{ uri: folder, name: "sites" }];
  const capabilities = { textDocument: { diagnostic: {} }, workspace: { configuration: true, workspaceFolders: true } };
  await ask("initialize", { processId: null, rootUri: folder, workspaceFolders, capabilities });
  await tell("initialized", {});
  const uri = `${folder}/tannery-wharf.mullion`;
  files[uri] = site;
  await tell("textDocument/didOpen", { textDocument: { uri, languageId: "mullion", version: 1, text: site } });
  const report = (await ask("textDocument/diagnostic", { textDocument: { uri } })) as { items: { code: string }[] };
  expect(report.items.map(({ code }) => code)).toContain("slot-clash");
  expect(report.items.map(({ code }) => code)).not.toContain("use-missing");
  const hover = await ask("textDocument/hover", { textDocument: { uri }, position: { line: 6, character: 6 } });
  expect(JSON.stringify(hover)).toContain("1 1 4829 #");
  expect(complaints.filter(complaint => !complaint.startsWith("a request: blob:"))).toEqual([]);
});
