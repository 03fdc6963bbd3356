/** The language server as a process: over standard input and output (`--stdio`) or Node's own channel (`--node-ipc`). */
import { createConnection } from "vscode-languageserver/node";
import { nodeHost } from "./node-host.ts";
import { serve } from "./server.ts";

serve(createConnection(), nodeHost);
