/** Typing in the middle of a large text: how long until its findings are there, and what hover and completion take meanwhile. */
import { join } from "node:path";
import type { ProtocolConnection } from "vscode-languageserver/node";
import {
  CompletionRequest,
  DidChangeTextDocumentNotification,
  DidOpenTextDocumentNotification,
  DocumentDiagnosticRequest,
  HoverRequest,
  PublishDiagnosticsNotification,
} from "vscode-languageserver/node";
import { siteText } from "./generate.ts";
import type { ServerProcess } from "./server-process.ts";
import { serverProcess } from "./server-process.ts";

const uri = "file:///bench/site.mullion";

export interface Typing {
  /** From a keystroke to its findings. */
  readonly findingsMs: readonly number[];
  /** What the server's processor was at work for one keystroke, on average. */
  readonly cpuMs: number;
  readonly findings: number;
  readonly hoverMs: readonly number[];
  readonly completionMs: readonly number[];
}

/** The server as it is built, with a text open; findings are asked for, as editors do that can. */
export async function mullionServer(): Promise<ServerProcess> {
  return serverProcess([join(import.meta.dirname, "../../out/server.js"), "--stdio"], true);
}

export async function langiumServer(): Promise<ServerProcess> {
  return serverProcess(["--no-warnings", join(import.meta.dirname, "peers/langium-server.mjs"), "--stdio"], false);
}

/** A text open in a server, typed into one letter at a time in a holder's label. */
export class TypedText {
  readonly #client: ProtocolConnection;
  readonly #pull: boolean;
  readonly #line: number;
  readonly #column: number;
  readonly entry: { readonly line: number; readonly character: number };
  #version = 1;
  #sent: ((version: number, count: number) => void) | undefined;

  private constructor(client: ProtocolConnection, text: string, pull: boolean) {
    this.#client = client;
    this.#pull = pull;
    const lines = text.split("\n");
    this.#line = lines.findIndex((line, index) => index >= lines.length / 2 && /^holder .*" code /.test(line));
    this.#column = (lines[this.#line] ?? "").indexOf('"') + 1;
    const entry = lines.findIndex((line, index) => index > this.#line && /^ {4}\d+ h/.test(line));
    this.entry = { line: entry, character: (lines[entry] ?? "").indexOf("h") + 1 };
    client.onNotification(PublishDiagnosticsNotification.type, params =>
      // One that names no version is of the last: nothing else is typed before it comes.
      this.#sent?.(params.version ?? this.#version, params.diagnostics.length),
    );
  }

  /** Opens it, and waits for its first findings. */
  static async open({ client }: ServerProcess, text: string, pull: boolean): Promise<TypedText> {
    const typed = new TypedText(client, text, pull);
    const first = pull ? undefined : typed.#findingsOf(1);
    await client.sendNotification(DidOpenTextDocumentNotification.type, {
      textDocument: { uri, languageId: "mullion", version: 1, text },
    });
    await (first ?? typed.#findingsOf(1));
    return typed;
  }

  /** Types one letter, or takes out the one before; the answer is how many findings there are then. */
  async type(): Promise<number> {
    const findings = this.#pull ? undefined : this.#findingsOf(this.#version + 1);
    await this.change();
    return findings ?? this.#findingsOf(this.#version);
  }

  async change(): Promise<void> {
    this.#version++;
    const start = { line: this.#line, character: this.#column };
    const isOdd = this.#version % 2 === 1;
    await this.#client.sendNotification(DidChangeTextDocumentNotification.type, {
      textDocument: { uri, version: this.#version },
      contentChanges: [{ range: { start, end: { ...start, character: this.#column + (isOdd ? 1 : 0) } }, text: isOdd ? "" : "x" }],
    });
  }

  async #findingsOf(version: number): Promise<number> {
    if (this.#pull) {
      const report = await this.#client.sendRequest(DocumentDiagnosticRequest.type, { textDocument: { uri } });
      return report.kind === "full" ? report.items.length : Number.NaN;
    }
    return new Promise(resolve => {
      this.#sent = (told, count) => {
        if (told >= version) resolve(count);
      };
    });
  }
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const begun = performance.now();
  await work();
  return performance.now() - begun;
}

/** @param asks whether hover and completion are measured too, after every keystroke */
export async function typing(server: ServerProcess, lines: number, pull: boolean, keystrokes: number, asks: boolean): Promise<Typing> {
  const text = await TypedText.open(server, siteText(lines, "inside"), pull);
  const { client } = server;
  const position = text.entry;
  const hover = () => client.sendRequest(HoverRequest.type, { textDocument: { uri }, position });
  const completion = () => client.sendRequest(CompletionRequest.type, { textDocument: { uri }, position });
  const warmUp = pull ? 10 : 2;
  for (let i = 0; i < warmUp; i++) await text.type();
  const before = await server.probe();
  const findingsMs: number[] = [];
  let findings = 0;
  for (let i = 0; i < keystrokes; i++) {
    findingsMs.push(
      await timed(async () => {
        findings = await text.type();
      }),
    );
  }
  const { cpuMs } = await server.probe();
  const hoverMs: number[] = [];
  const completionMs: number[] = [];
  for (let i = 0; asks && i < keystrokes; i++) {
    await text.type();
    hoverMs.push(await timed(hover));
    completionMs.push(await timed(completion));
  }
  return { findingsMs, cpuMs: (cpuMs - before.cpuMs) / keystrokes, findings, hoverMs, completionMs };
}

/** What the server holds before and after many edits, its findings asked for after every tenth. */
export async function memoryOverEdits(server: ServerProcess, lines: number, edits: number): Promise<{ before: number; after: number }> {
  const text = await TypedText.open(server, siteText(lines, "inside"), true);
  const round = async (count: number) => {
    for (let i = 0; i < count; i++) await (i % 10 === 0 ? text.type() : text.change());
    await text.type();
  };
  await round(50);
  const { heapBytes: before } = await server.probe();
  await round(edits);
  const { heapBytes: after } = await server.probe();
  return { before, after };
}
