/** `mullion lsp --stdio` answers an editor's first question and ends when it is told to. */
import { spawn } from "node:child_process";
import { expect, test } from "vitest";
import { bundle } from "./support/mullion.ts";

test("initialize, shutdown, exit", async () => {
  const server = spawn(process.execPath, [bundle, "lsp", "--stdio"], { stdio: "pipe" });
  let said = "";
  server.stdout.setEncoding("utf8").on("data", (text: string) => {
    said += text;
  });
  const send = (message: object) => {
    const content = JSON.stringify({ jsonrpc: "2.0", ...message });
    server.stdin.write(`Content-Length: ${Buffer.byteLength(content)}\r\n\r\n${content}`);
  };
  const answered = async (id: number) => {
    while (!said.includes(`"id":${id}`)) await new Promise(done => server.stdout.once("data", done));
  };
  send({ id: 1, method: "initialize", params: { processId: null, rootUri: null, capabilities: {} } });
  await answered(1);
  expect(said).toContain('"capabilities"');
  send({ id: 2, method: "shutdown" });
  await answered(2);
  send({ method: "exit" });
  expect(await new Promise(done => server.once("exit", done))).toBe(0);
});
