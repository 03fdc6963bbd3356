/** A language server as a process of its own, over standard input and output, as an editor has it. */
import { spawn } from "node:child_process";
import { join } from "node:path";
import type { ProtocolConnection } from "vscode-languageserver/node";
import {
  ConfigurationRequest,
  createProtocolConnection,
  InitializedNotification,
  InitializeRequest,
  RegistrationRequest,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";

export interface Probe {
  /** After everything that is no longer needed was given back. */
  readonly heapBytes: number;
  /** Processor time since the start, all threads. */
  readonly cpuMs: number;
}

export interface ServerProcess {
  readonly client: ProtocolConnection;
  probe(): Promise<Probe>;
  end(): void;
}

/** @param pull whether the client asks for findings; the others have them sent. */
export async function serverProcess(words: readonly string[], pull: boolean, folder?: string): Promise<ServerProcess> {
  const child = spawn(process.execPath, ["--expose-gc", "--require", join(import.meta.dirname, "server-probe.cjs"), ...words], {
    stdio: ["pipe", "pipe", "pipe"],
  });
  const client = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  client.onRequest(ConfigurationRequest.type, ({ items }) => items.map(() => ({})));
  client.onRequest(RegistrationRequest.type, () => undefined);
  client.listen();
  child.on("exit", (status, signal) => {
    if (signal === null) throw new Error(`a server ended with status ${status}: ${heard}`);
  });
  let heard = "";
  let tell: ((probe: Probe) => void) | undefined;
  child.stderr.on("data", chunk => {
    heard += String(chunk);
    const said = /probe (\{.*\})\n/.exec(heard);
    if (!said?.[1]) return;
    heard = heard.slice(said.index + said[0].length);
    tell?.(JSON.parse(said[1]) as Probe);
  });
  await client.sendRequest(InitializeRequest.type, {
    processId: null,
    rootUri: folder ?? null,
    workspaceFolders: folder === undefined ? null : [{ uri: folder, name: "sites" }],
    capabilities: {
      textDocument: {
        ...(pull ? { diagnostic: {} } : {}),
        publishDiagnostics: { versionSupport: true },
        hover: { contentFormat: ["markdown"] },
      },
      workspace: { configuration: true, workspaceFolders: true },
    },
  });
  await client.sendNotification(InitializedNotification.type, {});
  return {
    client,
    probe: () =>
      new Promise(resolve => {
        tell = resolve;
        child.kill("SIGUSR2");
      }),
    end: () => {
      client.dispose();
      child.kill();
    },
  };
}
