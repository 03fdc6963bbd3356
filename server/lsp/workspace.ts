/** What is open in the editor and what lies in its folders: texts, the sites they make up, settings, and word of every change. */
import type {
  ClientCapabilities,
  Connection,
  FileEvent,
  InitializeParams,
  TextDocumentContentChangeEvent,
  WorkspaceFolder,
} from "vscode-languageserver";
import { FileChangeType } from "vscode-languageserver";
import type { TextDocument } from "vscode-languageserver-textdocument";
import { findingsAcross } from "../../shared/checks/across.ts";
import type { Named } from "../../shared/editor/names.ts";
import { definitionsOf } from "../../shared/editor/names.ts";
import type { FileId, Finding, SourceFile } from "../../shared/finding.ts";
import type { Commands, InitializationOptions } from "../../shared/requests.ts";
import { isSealed } from "../../shared/sealed/names.ts";
import { baseName, siteOfRecord } from "../../shared/site/paths.ts";
import { rootsOf } from "../../shared/site/roots.ts";
import type { Site } from "../../shared/site/site.ts";
import { Faults } from "./faults.ts";
import { overtaken } from "./guarded.ts";
import type { Host } from "./host.ts";
import { EditorSettings } from "./settings.ts";
import type { SiteAtWork } from "./sites.ts";
import { Sites } from "./sites.ts";
import { Texts } from "./texts.ts";
import { fileIdOf, schemeOf, sealedScheme } from "./uri.ts";

/** An open file that a request is about, as it was when the request was answered. */
export interface AtWork {
  readonly file: FileId;
  readonly document: TextDocument;
  readonly source: SourceFile;
}

export interface AtWorkInSite extends AtWork, SiteAtWork {
  /** All sites that the file belongs to; the first is the one shown where only one can be. */
  readonly sites: readonly SiteAtWork[];
}

/** What our extension has had from its first day. */
const alwaysThere: readonly (keyof Commands)[] = ["mullion.explain", "mullion.exportSheet", "mullion.previewSheet"];

/** How long typing and file events are let settle before anybody is told of a change. */
const quietMs = 120;

export class Workspace {
  readonly texts: Texts;
  readonly sites: Sites;
  readonly settings: EditorSettings;
  readonly faults: Faults;
  readonly host: Host;
  client: ClientCapabilities = {};
  firstFolders: readonly WorkspaceFolder[] = [];
  /** Commands of our own extension that are there to be named. */
  commands: ReadonlySet<keyof Commands> = new Set();
  /** The address of the explanation of a finding; undefined for clients that cannot follow it. */
  explanation: ((code: string) => string) | undefined;
  /** Settled once every file under the open folders is known by name. */
  indexed: Promise<void> = Promise.resolve();

  readonly #folders = new Map<FileId, WorkspaceFolder>();
  /** Files under the open folders. */
  readonly #found = new Set<FileId>();
  readonly #listeners: ((why: "typing" | "elsewhere") => void)[] = [];
  #timer: ReturnType<typeof setTimeout> | undefined;
  #elsewhere = false;
  #roots: { readonly revision: number; readonly roots: readonly FileId[] } | undefined;

  #across: { readonly revision: number; readonly findings: readonly Finding[] } | undefined;

  constructor(connection: Connection, host: Host) {
    this.host = host;
    const { sealed } = host;
    this.texts = new Texts(
      file => host.read(file),
      file => (schemeOf(file) === "file" ? sealed?.open(file) : undefined),
    );
    this.sites = new Sites(this.texts, () => host.today());
    this.settings = new EditorSettings(connection);
    this.faults = new Faults(connection);
  }

  /** What the client says of itself before anything else. */
  introduce(params: InitializeParams): void {
    this.client = params.capabilities;
    this.settings.canAsk = params.capabilities.workspace?.configuration === true;
    this.settings.changed({ mullion: params.initializationOptions?.mullion });
    const { rootUri } = params;
    this.firstFolders = params.workspaceFolders ?? (rootUri ? [{ uri: rootUri, name: rootUri }] : []);
    // An editor of the VS Code family runs the command behind a link; elsewhere there is no address to give.
    const isOurs = /code|codium/i.test(params.clientInfo?.name ?? "");
    const { commands = isOurs ? alwaysThere : [] }: InitializationOptions = params.initializationOptions ?? {};
    this.commands = new Set(commands);
    if (this.commands.has("mullion.explain"))
      this.explanation = code => `command:mullion.explain?${encodeURIComponent(JSON.stringify([code]))}`;
  }

  /* Documents */

  /** Whether this is a file that somebody edits, and not one side of a comparison. */
  isEdited(uri: string): boolean {
    const scheme = schemeOf(uri);
    if (scheme === "file" || scheme === "untitled" || scheme === sealedScheme) return true;
    return [...this.#folders.keys()].some(folder => schemeOf(folder) === scheme);
  }

  opened(uri: string, language: string, version: number, text: string): void {
    // The bytes of a sealed file are not its text.
    if (isSealed(fileIdOf(uri)) && schemeOf(uri) !== sealedScheme) return;
    this.texts.open(uri, language, version, text);
    this.#changed("typing");
  }

  typed(uri: string, changes: readonly TextDocumentContentChangeEvent[], version: number): void {
    this.texts.change(uri, changes, version);
    this.#changed("typing");
  }

  closed(uri: string): void {
    this.texts.close(uri);
    this.settings.forget(uri);
    this.#changed("elsewhere");
  }

  /** An open, edited file on its own; undefined for everything else. */
  file(uri: string): AtWork | undefined {
    const opened = this.texts.opened(fileIdOf(uri));
    const source = opened && this.isEdited(uri) ? this.texts.now(opened.file) : undefined;
    return opened && source && { file: opened.file, document: opened.document, source };
  }

  /**
   * An open, edited file and the site that it belongs to.
   *
   * @throws ResponseError (content modified) when the file was typed into meanwhile
   */
  async fileInSite(uri: string): Promise<AtWorkInSite | undefined> {
    const before = this.file(uri);
    if (!before) return undefined;
    const sites = await this.sitesOf(before.file);
    if (this.file(uri)?.source !== before.source) throw overtaken();
    const first = sites[0];
    return first && { ...before, ...first, sites };
  }

  /* Sites */

  /** Every site, and every file that no site uses. */
  async allSites(): Promise<readonly SiteAtWork[]> {
    for (;;) {
      const roots = await this.#rootsNow();
      const sites = await Promise.all(roots.map(root => this.#siteAt(root)));
      if (this.#roots?.revision === this.texts.revision) return sites.flatMap(work => work ?? []);
    }
  }

  /** A site that cannot be had takes no other with it. */
  async #siteAt(root: FileId): Promise<SiteAtWork | undefined> {
    try {
      return await this.sites.at(root);
    } catch (fault) {
      this.faults.report("reading a site", fault);
      return undefined;
    }
  }

  /** What stands in several sites, found again only when something has changed. */
  async findingsAcross(): Promise<readonly Finding[]> {
    const sites = await this.allSites();
    const { revision } = this.texts;
    if (this.#across?.revision !== revision) this.#across = { revision, findings: findingsAcross(sites.map(({ site }) => site)) };
    return this.#across.findings;
  }

  async sitesOf(file: FileId): Promise<readonly SiteAtWork[]> {
    const sites = await this.allSites();
    return sites.filter(({ site }) => site.files.some(source => source.file === file));
  }

  /** The site that is meant by one of its files, open or not: the first that has a keypad. */
  async siteWithKeypads(file: FileId): Promise<SiteAtWork | undefined> {
    const sites = await this.sitesOf(file);
    return sites.find(({ site }) => site.keypads.size > 0);
  }

  /** The sites among which a name is shared: all that hold a file in which one of `sites` finds it declared. */
  async sitesSharing(sites: readonly SiteAtWork[], named: Named): Promise<readonly Site[]> {
    const declared = new Set(sites.flatMap(({ site }) => definitionsOf(site, named).map(({ file }) => file)));
    if (declared.size === 0) return sites.map(({ site }) => site);
    const all = await this.allSites();
    return all.map(({ site }) => site).filter(site => site.files.some(({ file }) => declared.has(file)));
  }

  /** Whether this file is one whose findings are shown: open and edited, or under an open folder. */
  isShown(file: FileId): boolean {
    const opened = this.texts.opened(file);
    return opened ? this.isEdited(opened.uri) : this.#found.has(file);
  }

  async #rootsNow(): Promise<readonly FileId[]> {
    for (;;) {
      const { revision } = this.texts;
      if (this.#roots?.revision === revision) return this.#roots.roots;
      const known = new Set(this.#found);
      for (const { file, uri } of this.texts.allOpened()) {
        if (!this.isEdited(uri)) continue;
        known.add(file);
        // A fitted record opened before the folder is known belongs to the site beside it.
        const site = siteOfRecord(file);
        if (site !== undefined) known.add(site);
      }
      await this.texts.readIn(known);
      if (this.texts.revision !== revision) continue;
      const sources = [...known].flatMap(file => this.texts.now(file) ?? []);
      const roots = rootsOf(sources);
      this.sites.keepOnly(roots);
      this.#roots = { revision, roots };
    }
  }

  /** Files under the open folders that this one could use: those in the same folder of the editor. */
  filesNear(file: FileId): Iterable<FileId> {
    const folder = [...this.#folders.keys()].find(each => file.startsWith(`${each}/`));
    return folder === undefined ? [] : [...this.#found].filter(each => each.startsWith(`${folder}/`)).sort();
  }

  /* Folders and files on disk */

  addFolders(folders: readonly WorkspaceFolder[]): void {
    for (const folder of folders) this.#folders.set(fileIdOf(folder.uri).replace(/\/$/, ""), folder);
    const before = this.indexed;
    this.indexed = Promise.all([before, ...folders.map(folder => this.#index(fileIdOf(folder.uri)))]).then(() => undefined);
  }

  removeFolders(folders: readonly WorkspaceFolder[]): void {
    for (const folder of folders) this.#folders.delete(fileIdOf(folder.uri).replace(/\/$/, ""));
    for (const file of this.#found) if (!this.#inFolders(file)) this.#found.delete(file);
    this.texts.revision++;
    this.#changed("elsewhere");
  }

  filesChanged(events: readonly FileEvent[]): void {
    // Of all that comes and goes in a folder little is ours; the rest must cost nothing and disturb nobody.
    const concerned = events.filter(({ uri, type }) => this.#happened(fileIdOf(uri), type));
    if (concerned.length > 0) this.#changed("elsewhere");
  }

  /** Whether it made a difference. */
  #happened(file: FileId, type: FileChangeType): boolean {
    if (type === FileChangeType.Deleted) return this.#removed(file);
    if (isText(file)) {
      if (this.#inFolders(file)) this.#found.add(file);
      this.texts.changedOnDisk(file);
      return true;
    }
    if (file.endsWith(".names")) return this.#readAgain([`${file.slice(0, -".names".length)}.mullion.age`]);
    // A folder that comes is told of as one, without the files in it.
    if (type !== FileChangeType.Created) return false;
    if (this.#inFolders(`${file}/`) && !baseName(file).includes(".")) void this.#index(file);
    return this.#readAgain(this.texts.askedUnder(file));
  }

  /** A file, or a folder with all that was in it. */
  #removed(file: FileId): boolean {
    const under = () => [...[...this.#found].filter(found => found.startsWith(`${file}/`)), ...this.texts.askedUnder(file)];
    const gone = isText(file) ? [file] : under();
    for (const each of gone) this.#found.delete(each);
    return this.#readAgain(gone);
  }

  /** Whether there were any. */
  #readAgain(files: readonly FileId[]): boolean {
    for (const file of files) this.texts.changedOnDisk(file);
    return files.length > 0;
  }

  async #index(folder: FileId): Promise<void> {
    try {
      const found = await this.host.find(folder);
      if (found.length === 0) return;
      for (const file of found) this.texts.changedOnDisk(file);
      // Read before anybody waits for them: the findings of what is open do not wait for the whole folder.
      await this.texts.readIn(found);
      for (const file of found) if (this.#inFolders(file)) this.#found.add(file);
      this.texts.revision++;
      this.#changed("elsewhere");
    } catch (fault) {
      this.faults.report("finding files", fault);
    }
  }

  /** Below an open folder, and not in one that is passed by: those with a dot before their name, and packages. */
  #inFolders(file: FileId): boolean {
    const folder = [...this.#folders.keys()].find(each => file.startsWith(`${each}/`));
    return folder !== undefined && !/\/(?:\.[^/]*|node_modules)\//.test(file.slice(folder.length));
  }

  /* Changes */

  onChange(listener: (why: "typing" | "elsewhere") => void): void {
    this.#listeners.push(listener);
  }

  /** What opens sealed files is another than before. @param shut nothing is left that opens any */
  unlocked(shut: boolean): void {
    this.texts.sealedChanged(shut);
    this.#changed("elsewhere");
  }

  settingsChanged(): void {
    this.#changed("elsewhere");
  }

  #changed(why: "typing" | "elsewhere"): void {
    if (why === "elsewhere") this.#elsewhere = true;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      const settled = this.#elsewhere ? "elsewhere" : "typing";
      this.#elsewhere = false;
      for (const listener of this.#listeners) listener(settled);
    }, quietMs);
  }

  dispose(): void {
    clearTimeout(this.#timer);
  }
}

function isText(file: FileId): boolean {
  return file.endsWith(".mullion") || isSealed(file);
}
