/** Every text that the server knows: what an editor has open stands over what is on disk. Equal text is the same `SourceFile`. */
import type { TextDocumentContentChangeEvent } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import { parse } from "../../grammar/parse.ts";
import type { FileId, SourceFile } from "../../shared/finding.ts";
import { isSealed, namesFile } from "../../shared/sealed/names.ts";
import { noIdentity, shutFile, unreadableFile } from "../../shared/sealed/shut.ts";
import type { SealedHost } from "./host.ts";
import { fileIdOf, sealedView } from "./uri.ts";

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
  readonly #unseal: ((file: FileId) => ReturnType<SealedHost["open"]> | undefined) | undefined;
  readonly #open = new Map<FileId, OpenText>();
  readonly #disk = new Map<FileId, OnDisk>();
  readonly #sources = new Map<FileId, SourceFile>();
  /** What stands in the place of sealed files that are shut, by the names files that it is of. */
  readonly #names = new Map<FileId, SourceFile>();
  #shut = true;
  /** Grows with everything that may change what `now` answers. */
  revision = 0;

  /** @param unseal opens sealed files; undefined for one that cannot be opened here, which stays shut */
  constructor(read: (file: FileId) => Promise<string | undefined>, unseal?: (file: FileId) => ReturnType<SealedHost["open"]> | undefined) {
    this.#read = read;
    this.#unseal = unseal;
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

  /**
   * Every sealed file is read again when it is next needed.
   *
   * @param shut nothing is at hand that opens any: what the editor still shows of one is not looked at either
   */
  sealedChanged(shut: boolean): void {
    this.#shut = shut;
    for (const file of this.#disk.keys()) if (isSealed(file)) this.changedOnDisk(file);
  }

  /** Every file under a folder that was ever asked for, found or not, wherever the folder lies. */
  askedUnder(folder: FileId): readonly FileId[] {
    return [...this.#disk.keys()].filter(file => file.startsWith(`${folder}/`));
  }

  opened(file: FileId): OpenText | undefined {
    return this.#shut && isSealed(file) ? undefined : this.#open.get(file);
  }

  allOpened(): Iterable<OpenText> {
    return [...this.#open.values()].filter(({ file }) => this.opened(file) !== undefined);
  }

  /** What this file's URI is to the client: the very text it opened it by, where it did. */
  uri(file: FileId): string {
    const opened = this.opened(file)?.uri;
    if (opened !== undefined) return opened;
    // Of a sealed file there is a text to go to; the file itself is bytes.
    return isSealed(file) ? sealedView(file) : file;
  }

  needsReading(file: FileId): boolean {
    return !this.opened(file) && !this.#disk.get(file)?.known;
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
    const source = isSealed(file) ? await this.#unsealed(file) : await this.#readPlain(file);
    if (disk.changes !== changes) return;
    if (disk.source !== source) this.revision++;
    disk.source = source;
    disk.known = true;
  }

  async #readPlain(file: FileId): Promise<SourceFile | undefined> {
    const text = await this.#read(file);
    return text === undefined ? undefined : this.#parsed(file, text);
  }

  /** A sealed file: its text where it opens, else as far as its names file tells. */
  async #unsealed(file: FileId): Promise<SourceFile | undefined> {
    const opening = this.#unseal?.(file);
    const opened = opening ? await opening : (await this.#read(file)) === undefined ? undefined : { shut: noIdentity };
    if (!opened) return undefined;
    if ("text" in opened) {
      this.#names.delete(namesFile(file));
      return this.#parsed(file, opened.text);
    }
    const before = this.#sources.get(file);
    const names = await this.#read(namesFile(file));
    const source = "unreadable" in opened ? unreadableFile(file, names, opened.unreadable) : shutFile(file, names, opened.shut);
    if (before?.file === source.file && before.text === source.text && before.sealed?.why === source.sealed?.why) return before;
    this.#sources.set(file, source);
    if (source.file !== file) this.#names.set(source.file, source);
    return source;
  }

  /** The file as it is now; undefined where there is none or it has not been read. */
  now(file: FileId): SourceFile | undefined {
    const opened = this.opened(file);
    return opened ? this.#parsed(file, opened.document.getText()) : (this.#disk.get(file)?.source ?? this.#names.get(file));
  }

  #parsed(file: FileId, text: string): SourceFile {
    const before = this.#sources.get(file);
    if (before?.text === text && before.sealed?.open !== false) return before;
    const source: SourceFile = { file, text, ...parse(text), ...(isSealed(file) && { sealed: { file, open: true } }) };
    this.#sources.set(file, source);
    return source;
  }
}
