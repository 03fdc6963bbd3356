/** Every text that the server knows: what an editor has open stands over what is on disk. Equal text is the same `SourceFile`. */

import type { TextDocumentContentChangeEvent } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { parse } from "../../grammar/parse.ts";
import type { FileId, SourceFile } from "../../shared/finding.ts";
import { isSealed, namesFile } from "../../shared/sealed/names.ts";
import { noIdentity, shutFile } from "../../shared/sealed/shut.ts";
import { fileIdOf } from "./uri.ts";

export interface OpenText {
  readonly file: FileId;
  readonly uri: string;
  readonly document: TextDocument;
}

interface OnDisk {
  source?: SourceFile | undefined;
  known: boolean;
  /** Counts what happened to the file, so that a read that was overtaken is not believed. */
  changes: number;
}

/** Files read at one time. */
const readsAtOnce = 32;

export class Texts {
  readonly #read: (file: FileId) => Promise<string | undefined>;
  readonly #open = new Map<FileId, OpenText>();
  readonly #disk = new Map<FileId, OnDisk>();
  readonly #sources = new Map<FileId, SourceFile>();
  /** Grows with everything that may change what `now` answers. */
  revision = 0;

  constructor(read: (file: FileId) => Promise<string | undefined>) {
    this.#read = read;
  }

  open(uri: string, language: string, version: number, text: string): OpenText {
    const opened: OpenText = { file: fileIdOf(uri), uri, document: TextDocument.create(uri, language, version, text) };
    this.#open.set(opened.file, opened);
    this.revision++;
    return opened;
  }

  change(uri: string, changes: readonly TextDocumentContentChangeEvent[], version: number): OpenText | undefined {
    const opened = this.#open.get(fileIdOf(uri));
    if (!opened) return undefined;
    TextDocument.update(opened.document, [...changes], version);
    this.revision++;
    return opened;
  }

  close(uri: string): void {
    const file = fileIdOf(uri);
    this.#open.delete(file);
    this.changedOnDisk(file);
  }

  /** The file was written, made or removed by somebody else: it is read again when it is next needed. */
  changedOnDisk(file: FileId): void {
    const disk = this.#disk.get(file);
    if (disk) {
      disk.known = false;
      disk.changes++;
    }
    this.revision++;
  }

  opened(file: FileId): OpenText | undefined {
    return this.#open.get(file);
  }

  allOpened(): Iterable<OpenText> {
    return this.#open.values();
  }

  /** What this file's URI is to the client: the very text it opened it by, where it did. */
  uri(file: FileId): string {
    return this.#open.get(file)?.uri ?? file;
  }

  needsReading(file: FileId): boolean {
    return !this.#open.has(file) && !this.#disk.get(file)?.known;
  }

  async readIn(files: Iterable<FileId>): Promise<void> {
    const waiting = [...files].filter(file => this.needsReading(file));
    const next = async (): Promise<void> => {
      for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) await this.#readOne(file);
    };
    await Promise.all(Array.from({ length: Math.min(readsAtOnce, waiting.length) }, next));
  }

  async #readOne(file: FileId): Promise<void> {
    const disk = this.#disk.get(file) ?? { known: false, changes: 0 };
    this.#disk.set(file, disk);
    const { changes } = disk;
    const text = await this.#read(file);
    const shut = text !== undefined && isSealed(file) ? await this.#shut(file) : undefined;
    if (disk.changes !== changes) return;
    const source = shut ?? (text === undefined ? undefined : this.#parsed(file, text));
    if (disk.source !== source) this.revision++;
    disk.source = source;
    disk.known = true;
  }

  /** The file as it is now; undefined where there is none or it has not been read. */
  now(file: FileId): SourceFile | undefined {
    const opened = this.#open.get(file);
    return opened ? this.#parsed(file, opened.document.getText()) : this.#disk.get(file)?.source;
  }

  /** A sealed file, as far as its names file tells. */
  async #shut(file: FileId): Promise<SourceFile> {
    const before = this.#sources.get(file);
    const source = shutFile(file, await this.#read(namesFile(file)), noIdentity);
    if (before?.file === source.file && before.text === source.text) return before;
    this.#sources.set(file, source);
    return source;
  }

  #parsed(file: FileId, text: string): SourceFile {
    const before = this.#sources.get(file);
    if (before?.text === text) return before;
    const source: SourceFile = { file, text, ...parse(text) };
    this.#sources.set(file, source);
    return source;
  }
}
