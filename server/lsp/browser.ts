/** The language server in a browser's worker: it reads no file itself and asks the editor for each. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from "vscode-languageserver/browser";
import { dayOf } from "../cli/day.ts";
import type { Host } from "./host.ts";
import { serve } from "./server.ts";

type Worker = ConstructorParameters<typeof BrowserMessageReader>[0];
const worker = globalThis as unknown as Worker;

const browserHost: Host = {
  reads: () => false,
  read: async () => undefined,
  find: async () => [],
  today: () => dayOf(new Date()),
  random: count => globalThis.crypto.getRandomValues(new Uint8Array(count)),
};

serve(createConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker)), browserHost);
