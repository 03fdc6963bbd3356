/** The other end of the wire: writes messages of any kind, well made or not, and holds every one that comes back against the protocol. */
import { PassThrough } from "node:stream";
import type { Connection } from "vscode-languageserver/node";
import { createConnection, StreamMessageReader, StreamMessageWriter } from "vscode-languageserver/node";
import type { Host } from "../../../server/lsp/host.ts";
import { serve } from "../../../server/lsp/server.ts";
import type { Workspace } from "../../../server/lsp/workspace.ts";
import { wrongAs, wrongParams, wrongResult } from "./protocol/conforms.ts";

interface Message {
  readonly jsonrpc?: unknown;
  readonly id?: number | string | null;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

export interface Answer {
  readonly result?: unknown;
  readonly error?: { readonly code: number; readonly message: string };
}

/** Kept from the requests that were sent, for the answers to them. */
interface Pending {
  readonly method: string;
  readonly isMalformed: boolean;
  readonly done: (answer: Answer) => void;
}

/** How long an answer may take, in milliseconds; the machine may be busy. */
const longestWait = 20_000;

export class Client {
  /** What was wrong with what the server said, in words. */
  readonly wrong: string[] = [];
  /** The server's log and what it showed. */
  readonly log: string[] = [];
  /** The latest findings pushed, by URI. */
  readonly pushed = new Map<string, unknown>();
  readonly workspace: Workspace;
  readonly #connection: Connection;
  readonly #there = new PassThrough();
  readonly #back = new PassThrough();
  readonly #pending = new Map<number, Pending>();
  #unread = Buffer.alloc(0);
  #ids = 0;

  /** @param asked answers what the server asks of its client, such as its settings */
  constructor(host: Host, asked: (method: string, params: unknown) => unknown) {
    this.#connection = createConnection(new StreamMessageReader(this.#there), new StreamMessageWriter(this.#back));
    this.#back.on("data", (bytes: Buffer) => this.#read(bytes, asked));
    this.workspace = serve(this.#connection, host);
  }

  /**
   * Sends a request and says what came of it. `id` may be cancelled.
   *
   * @param isMalformed then the answer may give back what was wrong in it
   */
  request(method: string, params: unknown, isMalformed = false): { readonly id: number; readonly answer: Promise<Answer> } {
    const id = ++this.#ids;
    const answer = new Promise<Answer>((resolve, reject) => {
      const late = setTimeout(() => reject(new Error(`no answer to ${method} in ${longestWait} ms`)), longestWait);
      const done = (came: Answer) => {
        clearTimeout(late);
        resolve(came);
      };
      this.#pending.set(id, { method, isMalformed, done });
    });
    this.#send({ jsonrpc: "2.0", id, method, params });
    return { id, answer };
  }

  /** The result of a request that must be answered well. */
  async ask<T>(method: string, params: unknown): Promise<T> {
    const { result, error } = await this.request(method, params).answer;
    if (error) throw new Error(`${method} is refused: ${error.message}`);
    return result as T;
  }

  notify(method: string, params: unknown): void {
    this.#send({ jsonrpc: "2.0", method, params });
  }

  /** A message as it is, whatever it is. */
  #send(message: object): void {
    this.sendText(JSON.stringify(message));
  }

  /** Anything between the length and the end of a message. */
  sendText(text: string): void {
    this.#there.write(`Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`);
  }

  async end(): Promise<void> {
    await this.request("shutdown", null).answer;
    this.#connection.dispose();
    this.#there.end();
    this.#back.end();
  }

  #read(bytes: Buffer, asked: (method: string, params: unknown) => unknown): void {
    this.#unread = Buffer.concat([this.#unread, bytes]);
    for (;;) {
      const head = this.#unread.indexOf("\r\n\r\n");
      if (head < 0) return;
      const length = Number(/Content-Length: (\d+)/.exec(this.#unread.toString("latin1", 0, head))?.[1]);
      if (this.#unread.length < head + 4 + length) return;
      const text = this.#unread.toString("utf8", head + 4, head + 4 + length);
      this.#unread = this.#unread.subarray(head + 4 + length);
      this.#heard(JSON.parse(text) as Message, asked);
    }
  }

  #heard(message: Message, asked: (method: string, params: unknown) => unknown): void {
    if (message.jsonrpc !== "2.0") this.#say("a message is not of JSON-RPC 2.0");
    if (message.method !== undefined) this.#told(message, message.method, asked);
    else this.#answered(message);
  }

  /** A request or a notification of the server's own. */
  #told({ id, params }: Message, method: string, asked: (method: string, params: unknown) => unknown): void {
    this.#say(wrongParams(method, params), method);
    if (id !== undefined && id !== null) this.#send({ jsonrpc: "2.0", id, result: asked(method, params) ?? null });
    else if (method === "textDocument/publishDiagnostics") {
      const { uri, diagnostics } = params as { uri: string; diagnostics: unknown };
      this.pushed.set(uri, diagnostics);
    } else if (method === "window/logMessage" || method === "window/showMessage") this.log.push((params as { message: string }).message);
  }

  #answered({ id, result, error }: Message): void {
    const pending = typeof id === "number" ? this.#pending.get(id) : undefined;
    // A message that could not be read is answered without an id.
    if (!pending) {
      if (error === undefined || id !== null) this.#say(`an answer to ${id}, which was not asked`);
      return;
    }
    this.#pending.delete(id as number);
    const { method, isMalformed, done } = pending;
    if (error) {
      if (!Number.isInteger(error.code) || typeof error.message !== "string" || error.message === "")
        this.#say("an error without words", method);
    } else if (!isMalformed) this.#say(wrongResult(method, result) ?? wrongCapabilities(method, result), method);
    done(error ? { error } : { result });
  }

  #say(fault: string | undefined, method = ""): void {
    if (fault !== undefined) this.wrong.push(`${method} ${fault}`.trim());
  }
}

function wrongCapabilities(method: string, result: unknown): string | undefined {
  return method === "initialize" ? wrongAs("InitializeResult", result) : undefined;
}
