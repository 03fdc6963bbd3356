/** Any edits: what an editor does in a random order, with what no editor should do in between; the server stays up and knows what a fresh one knows. */
import { fileIdOf } from "../../../server/lsp/uri.ts";
import type { Attempt, Part } from "../part.ts";
import type { Random } from "../random.ts";
import { corpus } from "../text/corpus.ts";
import { generated } from "../text/generate.ts";
import { holds } from "../text/holds.ts";
import { mutated } from "../text/mutate.ts";
import { checkAnswer } from "./answers.ts";
import { askAnything } from "./asking.ts";
import type { Client } from "./client.ts";
import { malformed } from "./malformed.ts";
import { offsetAt, positionAt } from "./text.ts";
import { capabilities, firstDisk, folder, started } from "./world.ts";

export const edits: Part = {
  name: "edits",
  counted: "messages",
  short: { random: 12 },
  async attempt(one) {
    const session = new Session(one);
    await session.begin();
    try {
      for (let left = one.random.between(5, 40); left > 0; left--) await session.step();
      await session.compare();
    } finally {
      one.keep(session.told.join("\n"));
      one.counts(session.told.length);
      await session.end();
    }
  },
};

/** An open document as the client has it. */
interface Open {
  text: string;
  version: number;
}

/** One session with a server, and everything that the client knows. */
class Session {
  readonly told: string[] = [];
  readonly #random: Random;
  readonly #disk = firstDisk();
  readonly #open = new Map<string, Open>();
  readonly #waiting: Promise<void>[] = [];
  readonly #faults: unknown[] = [];
  readonly #said: object;
  #folders: readonly string[] = [folder];
  #client: Client | undefined;

  constructor({ random }: Attempt) {
    this.#random = random;
    this.#said = capabilities(random);
  }

  async begin(): Promise<void> {
    this.#client = await started(this.#disk, this.#said, this.#folders);
  }

  get client(): Client {
    holds(this.#client !== undefined, "a session has begun");
    return this.#client;
  }

  async end(): Promise<void> {
    await this.client.end();
  }

  async step(): Promise<void> {
    const random = this.#random;
    const weighted = [
      ...Array<() => void>(6).fill(() => this.#type()),
      ...Array<() => void>(3).fill(() => this.#openOne()),
      ...Array<() => void>(6).fill(() => this.#ask()),
      ...Array<() => void>(2).fill(() => this.#diskChanges()),
      () => this.#close(),
      () => this.#rename(),
      () => this.#folderChanges(),
      () => this.#settings(),
      () => this.#malformed(),
    ];
    random.one(weighted)();
    // Now and then the server gets to work before more is said.
    if (random.oneIn(3)) await new Promise(resolve => setTimeout(resolve, random.oneIn(10) ? 15 : 0));
    if (random.oneIn(12)) await this.#settled();
  }

  /** Everything asked is answered, and nothing that came was wrong. */
  async #settled(): Promise<void> {
    await Promise.all(this.#waiting.splice(0));
    if (this.#faults.length > 0) throw this.#faults[0];
    // Messages are taken in their order: what was told before this is known once it is answered.
    await this.client.ask("mullion/explain", { code: "slot-clash" });
    const [wrong] = this.client.wrong;
    holds(wrong === undefined, `not as the protocol says: ${wrong}`);
    for (const [uri, { text }] of this.#open) {
      const known = this.client.workspace.texts.opened(fileIdOf(uri))?.document.getText();
      holds(known === text, "the server's text is not the client's");
    }
  }

  /** What this server finds and shows is what one finds that is started now. */
  async compare(): Promise<void> {
    await this.#settled();
    await this.client.workspace.indexed;
    const fresh = await started(this.#disk, this.#said, this.#folders);
    try {
      await fresh.workspace.indexed;
      for (const [uri, { text, version }] of this.#open)
        fresh.notify("textDocument/didOpen", { textDocument: { uri, languageId: "mullion", version, text } });
      for (const uri of this.#open.keys())
        for (const method of [
          "textDocument/diagnostic",
          "textDocument/documentSymbol",
          "textDocument/codeLens",
          "textDocument/semanticTokens/full",
        ]) {
          if (method === "textDocument/diagnostic" && !("textDocument" in this.#said)) continue;
          const params = { textDocument: { uri } };
          const [mine, theirs] = [await this.client.ask(method, params), await fresh.ask(method, params)];
          this.#same(method, withoutIds(mine), withoutIds(theirs));
        }
      const symbols = { query: "" };
      const [mine, theirs] = [await this.client.ask("workspace/symbol", symbols), await fresh.ask("workspace/symbol", symbols)];
      this.#same("workspace/symbol", sorted(mine), sorted(theirs));
      const odd = this.client.log.filter(line => !understood.test(line));
      holds(odd.length === 0, `the log has: ${odd[0]}`);
    } finally {
      await fresh.end();
    }
    await this.#settled();
  }

  #same(method: string, mine: string, theirs: string): void {
    if (mine === theirs) return;
    this.told.push(`${method} answers`, mine, "a fresh server answers", theirs);
    holds(false, `${method} is not what a fresh server answers`);
  }

  #say(method: string, params: unknown): void {
    this.told.push(JSON.stringify({ method, params }));
    this.client.notify(method, params);
  }

  #anyFile(): string {
    const all = [
      ...this.#disk.keys(),
      `${folder}/new.mullion`,
      `${folder}/tannery-wharf/tannery-wharf.fitted.mullion`,
      "untitled:Untitled-1",
      "git:/site/old.mullion?ref",
    ];
    return this.#random.one(all);
  }

  #anyOpen(): readonly [uri: string, open: Open] | undefined {
    return this.#open.size > 0 ? this.#random.one([...this.#open]) : undefined;
  }

  #anyText(): string {
    const random = this.#random;
    if (random.oneIn(4)) return generated(random);
    const { text } = random.one(corpus);
    return random.oneIn(2) ? text : mutated(text, random);
  }

  #openOne(): void {
    const uri = this.#anyFile();
    if (this.#open.has(uri)) return;
    const text = this.#random.oneIn(3) ? this.#anyText() : (this.#disk.get(uri) ?? this.#anyText());
    this.#open.set(uri, { text, version: 1 });
    this.#say("textDocument/didOpen", { textDocument: { uri, languageId: "mullion", version: 1, text } });
  }

  #type(): void {
    const found = this.#anyOpen();
    if (!found) {
      this.#openOne();
      return;
    }
    const [uri, open] = found;
    const random = this.#random;
    const contentChanges = Array.from({ length: random.oneIn(4) ? 3 : 1 }, () => {
      if (random.oneIn(25)) {
        open.text = this.#anyText();
        return { text: open.text };
      }
      const one = random.below(open.text.length + 1);
      const other = random.oneIn(2) ? one : Math.min(open.text.length, one + random.below(random.oneIn(10) ? 300 : 6));
      const range = { start: positionAt(open.text, one), end: positionAt(open.text, other) };
      const text = random.one(typed);
      const [start, end] = [offsetAt(open.text, range.start), offsetAt(open.text, range.end)];
      open.text = open.text.slice(0, start) + text + open.text.slice(Math.max(start, end));
      return { range, text };
    });
    open.version += random.between(1, 3);
    this.#say("textDocument/didChange", { textDocument: { uri, version: open.version }, contentChanges });
  }

  #close(): void {
    const found = this.#anyOpen();
    if (!found) return;
    this.#open.delete(found[0]);
    this.#say("textDocument/didClose", { textDocument: { uri: found[0] } });
  }

  #rename(): void {
    const from = this.#random.one([...this.#disk.keys()]);
    const to = from.replace(/[^/]*$/, this.#random.one(["moved.mullion", "a%20b.mullion", "x.fitted.mullion"]));
    const asked = { files: [{ oldUri: from, newUri: to }] };
    this.told.push(JSON.stringify({ method: "workspace/willRenameFiles", params: asked }));
    if ("workspace" in this.#said) this.#hear("workspace/willRenameFiles", asked);
    const text = this.#disk.get(from);
    if (text === undefined || from === to) return;
    this.#disk.delete(from);
    this.#disk.set(to, text);
    const open = this.#open.get(from);
    if (open) {
      this.#open.delete(from);
      this.#say("textDocument/didClose", { textDocument: { uri: from } });
      if (!this.#open.has(to)) {
        this.#open.set(to, { ...open, version: 1 });
        this.#say("textDocument/didOpen", { textDocument: { uri: to, languageId: "mullion", version: 1, text: open.text } });
      }
    }
    const changes = [
      { uri: from, type: 3 },
      { uri: to, type: 1 },
    ];
    this.#say("workspace/didChangeWatchedFiles", { changes: this.#random.oneIn(2) ? changes : changes.reverse() });
  }

  /** Somebody else writes, makes or removes files, or a whole folder; or nothing happens and it is told all the same. */
  #diskChanges(): void {
    const random = this.#random;
    const changes: { uri: string; type: number }[] = [];
    for (let left = random.between(1, 3); left > 0; left--) {
      const uri = this.#anyFile();
      if (!uri.startsWith("file:")) continue;
      if (random.oneIn(3) && this.#disk.size > 3) {
        changes.push({ uri, type: this.#disk.delete(uri) ? 3 : 2 });
      } else if (random.oneIn(4)) changes.push({ uri, type: this.#disk.has(uri) ? random.one([1, 2]) : 3 });
      else {
        changes.push({ uri, type: this.#disk.has(uri) ? 2 : 1 });
        this.#disk.set(uri, this.#anyText());
      }
    }
    if (random.oneIn(8)) {
      const gone = `${folder}/${random.one(["broken", "models", "curlew-court"])}`;
      for (const uri of this.#disk.keys()) if (uri.startsWith(`${gone}/`)) this.#disk.delete(uri);
      changes.push({ uri: gone, type: 3 });
    }
    if (random.oneIn(6))
      changes.push({ uri: `${folder}/${random.one(["x.txt", ".git", "node_modules/a.mullion"])}`, type: random.one([1, 2, 3]) });
    this.#say("workspace/didChangeWatchedFiles", { changes });
  }

  #folderChanges(): void {
    if (!("workspace" in this.#said) || !this.#random.oneIn(3)) return;
    const named = (uri: string) => ({ uri, name: uri });
    const one = `${folder}/${this.#random.one(["models", "tannery-wharf", "none"])}`;
    const [added, removed] = this.#folders.includes(one) ? [[], [one]] : [[one], this.#random.oneIn(2) ? [] : this.#folders];
    this.#folders = [...this.#folders.filter(each => !removed.includes(each)), ...added];
    this.#say("workspace/didChangeWorkspaceFolders", { event: { added: added.map(named), removed: removed.map(named) } });
  }

  #settings(): void {
    this.#say("workspace/didChangeConfiguration", {
      settings: this.#random.one([null, { mullion: { inlayHints: "off" } }, { mullion: 7 }, {}]),
    });
  }

  #ask(): void {
    const found = this.#anyOpen();
    const uri = found ? found[0] : this.#anyFile();
    const text = found?.[1].text ?? "";
    const { method, params } = askAnything(this.#random, uri, text);
    this.told.push(JSON.stringify({ method, params }));
    this.#hear(method, params, uri);
  }

  /** Sends a request, cancels it now and then, and looks at the answer if the text is by then what it was. */
  #hear(method: string, params: unknown, uri = ""): void {
    const before = this.#open.get(uri);
    const [text, version] = [before?.text, before?.version];
    const { id, answer } = this.client.request(method, params);
    if (this.#random.oneIn(6)) this.#say("$/cancelRequest", { id });
    const look = async () => {
      const { result, error } = await answer;
      if (error) {
        // Cancelled, overtaken, or refused in words; never a fault of the server's own.
        const isPush = method === "textDocument/diagnostic" && !("textDocument" in this.#said);
        holds(
          isPush || [-32800, -32801, -32803, -32602].includes(error.code),
          `${method} is answered with error ${error.code}: ${error.message}`,
        );
        return;
      }
      if (text === undefined || this.#open.get(uri)?.version !== version || this.#open.get(uri)?.text !== text) return;
      checkAnswer(method, result, text, uri);
    };
    this.#await(look());
  }

  /** What goes wrong is told when the session next waits for everything. */
  #await(answer: Promise<void>): void {
    this.#waiting.push(answer.catch((fault: unknown) => void this.#faults.push(fault)));
  }

  #malformed(): void {
    const what = malformed(this.#random, [...this.#open.keys()], this.#anyFile());
    this.told.push(what.text ?? JSON.stringify(what));
    if (what.text !== undefined) this.client.sendText(what.text);
    else if (what.isRequest) this.#await(this.client.request(what.method, what.params, true).answer.then(() => undefined));
    else this.client.notify(what.method, what.params);
  }
}

/** What the log says of messages that are none, or that no editor should send. */
const understood =
  /^(?:Received (?:message which is neither|empty message)|Notification \S+ defines|Notification handler|Unhandled method|.* was passed over)/;

const typed = [
  ...[
    "",
    "",
    "a",
    "0",
    "1",
    " ",
    "\n",
    "\r\n",
    "\r",
    '"',
    "{",
    "}",
    ".",
    "//",
    "\n  01 u1\n",
    "u1",
    "é",
    "e\u0301",
    "🏺",
    "\ud83d",
    "\udffa",
    "👩‍👩‍👧",
    "漢字",
  ],
  ...["\n<<<<<<< a\n", "=======\n", ">>>>>>> b\n", 'holder u9 "🏺🏺 é" code 7391\n', "site", "  ", "\u2028", "\t", "قارب"],
];

function withoutIds(answer: unknown): string {
  return JSON.stringify(answer, (key, value: unknown) => (key === "resultId" ? undefined : value));
}

function sorted(answer: unknown): string {
  return JSON.stringify((answer as unknown[] | null)?.map(each => JSON.stringify(each)).sort());
}
