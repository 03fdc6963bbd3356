/** What an editor may ask the language server beyond the protocol's own requests, and what the server may ask back. Types and names only. */

/** Editor to server. A `uri` names the site's file or any file that the site uses. */
export interface Requests {
  /** The run sheets of a site, as files to write beside it; an impossible sheet is a held one, not an error. */
  readonly "mullion/sheet": { readonly params: SheetParams; readonly result: SheetResult };
  /** The run sheets of a site to stand beside the text, with the places that their entries come from. */
  readonly "mullion/preview": { readonly params: PreviewParams; readonly result: PreviewResult };
  /** The papers beside the run sheet, as files to write beside the site; what an error holds back is held, as with a sheet. */
  readonly "mullion/paper": { readonly params: PaperParams; readonly result: SheetResult };
  /** What is still to be typed, keypad by keypad: of the site that `uri` belongs to, of all open sites without it. */
  readonly "mullion/waiting": { readonly params: WaitingParams; readonly result: WaitingResult };
  /** The full explanation of a finding, the same text that `mullion explain` prints. */
  readonly "mullion/explain": { readonly params: ExplainParams; readonly result: ExplainResult };
  /** Who opens what: what is fitted now and what will be after the next visit. */
  readonly "mullion/who": { readonly params: SiteParams; readonly result: PaperResult };
  /** The edits that write into the fitted record what was typed at one keypad. The editor applies and saves them. */
  readonly "mullion/record": { readonly params: RecordParams; readonly result: RecordResult };
  /** What opens sealed files, in place of all that was given before; the server keeps it in memory alone. */
  readonly "mullion/unlock": { readonly params: UnlockParams; readonly result: UnlockResult };
  /** The text in a sealed file. */
  readonly "mullion/unseal": { readonly params: UnsealParams; readonly result: UnsealResult };
  /** Seals a text into its file, for those who may read it; the file is left alone where it holds that text already. */
  readonly "mullion/reseal": { readonly params: ResealParams; readonly result: ResealResult };
  /** A new code for a holder, as edits of the file that declares the holder. */
  readonly "mullion/draw": { readonly params: DrawParams; readonly result: EditsResult };
  /** The files of a new site, ready to be written into an empty folder. */
  readonly "mullion/newSite": { readonly params: NewSiteParams; readonly result: FilesResult };
}

/** Server to editor: asked only of files that the server cannot read itself (their scheme is not `file`). */
export interface Questions {
  /** The text of a file, or null where there is none. */
  readonly "mullion/readFile": { readonly params: { readonly uri: string }; readonly result: { readonly text: string | null } };
  /** Every `*.mullion` file under the open folders whose scheme is not `file`. */
  readonly "mullion/findFiles": { readonly params: Record<string, never>; readonly result: { readonly uris: readonly string[] } };
}

/**
 * Commands that a code lens, a quick fix or a hover of the server may name. Their arguments are plain values:
 * the first is the file's URI as text, the second an id of that file.
 */
export interface Commands {
  readonly "mullion.exportSheet": readonly [uri: string, keypad?: string, from?: SheetStart];
  readonly "mullion.previewSheet": readonly [uri: string, keypad?: string];
  readonly "mullion.recordAsTyped": readonly [uri: string, keypad?: string];
  readonly "mullion.whoOpensWhat": readonly [uri: string];
  readonly "mullion.drawCode": readonly [uri: string, holder?: string, name?: string];
  readonly "mullion.explain": readonly [code: string];
}

/** What the client says of itself when it starts the server. */
export interface InitializationOptions {
  /** The commands that it has; without it those of an editor of the VS Code family that were there first. */
  readonly commands?: readonly (keyof Commands)[];
}

/** Settings that the server reads as the section `mullion`, resource by resource. */
export interface Settings {
  /** The keys behind each entry as inlay hints: never, always, or only for what is not yet fitted. */
  readonly inlayHints: "off" | "on" | "unfitted";
  /** Shows every code as dots in hovers, inlay hints, completion and the preview. */
  readonly maskCodes: boolean;
}

export interface SiteParams {
  readonly uri: string;
}

export type SheetFormat = "html" | "md" | "csv" | "json" | "txt";

/** What a sheet starts from: the fitted record, a keypad as it left the factory, or one that is reset by hand first. */
export type SheetStart = "fitted" | "factory" | "reset";

export interface SheetParams {
  readonly uri: string;
  /** Ids of the keypads wanted; all of the site's without it. */
  readonly keypads?: readonly string[];
  /** The fitted record without it. */
  readonly from?: SheetStart;
  readonly format: SheetFormat;
  readonly hideCodes?: boolean;
  readonly showInstaller?: boolean;
}

export interface SheetResult {
  /** The site's file. */
  readonly uri: string;
  /** One file a keypad; `name` is a file name without a folder, to stand in the folder of `uri`. */
  readonly files: readonly NamedText[];
  /** Keypads whose sheet is held back, with the findings that hold it (words only, never a code). */
  readonly held: readonly { readonly keypad: string; readonly label: string; readonly reasons: readonly string[] }[];
}

export interface NamedText {
  readonly name: string;
  readonly content: string;
}

export interface PreviewParams {
  readonly uri: string;
  /** Ids of the keypads wanted; all of the site's without it. */
  readonly keypads?: readonly string[];
  readonly hideCodes?: boolean;
}

export interface PreviewResult {
  /** Markup without a script, a style or anything from elsewhere; an entry is an element whose `data-n` is its number. */
  readonly sheets: readonly { readonly keypad: string; readonly html: string; readonly entries: readonly EntryPlace[] }[];
  /** How it looks, in the colours that the editor's theme defines. */
  readonly style: string;
  readonly held: SheetResult["held"];
}

/** The place in the text, in protocol positions, that an entry of a sheet comes from. */
export interface EntryPlace {
  readonly n: number;
  readonly uri: string;
  readonly start: { readonly line: number; readonly character: number };
  readonly end: { readonly line: number; readonly character: number };
}

export type PaperName = "register" | "slips" | "visit" | "handover" | "envelope";

export interface PaperParams {
  readonly uri: string;
  readonly paper: PaperName;
  /** Ids of the keypads wanted; all of the site's without it. An envelope is made only of keypads that are named. */
  readonly keypads?: readonly string[];
  /** Ids of the holders who are to have a slip; all of them without it. */
  readonly holders?: readonly string[];
  readonly format: "html" | "md" | "txt";
  readonly hideCodes?: boolean;
}

export interface FilesResult {
  readonly files: readonly NamedText[];
}

export interface WaitingParams {
  readonly uri?: string;
}

export interface WaitingResult {
  readonly keypads: readonly WaitingKeypad[];
  /** The list of every site's, as `mullion waiting` prints it; where all of them were asked for. */
  readonly markdown?: string;
}

export interface WaitingKeypad {
  /** The file that declares the keypad. */
  readonly uri: string;
  readonly site: string;
  readonly keypad: string;
  readonly label: string;
  /** Entries still to be typed; 0 where the record and the text agree. Absent where no plan is possible. */
  readonly entries?: number;
  /** Estimated time in seconds, keys only, a practised hand. */
  readonly seconds?: number;
  /** Whether a fitted record says what the keypad holds; without one it is as it left the factory. */
  readonly recorded: boolean;
}

export interface ExplainParams {
  readonly code: string;
}

export interface ExplainResult {
  /** Absent where there is no finding of that name. */
  readonly markdown?: string;
}

export interface PaperResult {
  readonly markdown: string;
}

export interface RecordParams {
  readonly uri: string;
  readonly keypad: string;
  /** Numbers of the entries that were taken, as on the sheet: "all" or "1-6,8". */
  readonly done: string;
  /** Numbers of the entries that nobody is sure of. */
  readonly doubt?: string;
  /** The day of the visit, YYYY-MM-DD. */
  readonly date: string;
  /** The number of the sheet that was typed from: refused where text and record now give another plan. */
  readonly sheet?: string;
  /** The keypad was swapped for a new one: the sheet was made from factory. */
  readonly replaced?: boolean;
}

export interface RecordResult extends EditsResult {
  /** How many entries were taken into the record. */
  readonly recorded: number;
  /** Refused because the number is that of another sheet, as far as can be told without starting git. */
  readonly otherSheet?: boolean;
}

export interface DrawParams {
  readonly uri: string;
  readonly holder: string;
  /** The name of a second code; the unnamed one without it. */
  readonly name?: string;
}

export interface EditsResult {
  /** What is to be replaced, in protocol positions (from 0, UTF-16); a file that does not exist yet is created. */
  readonly edits: readonly FileEdits[];
  /** Why nothing can be done, in words, where nothing can. */
  readonly refused?: string;
}

export interface FileEdits {
  readonly uri: string;
  readonly create?: boolean;
  readonly changes: readonly {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
    readonly text: string;
  }[];
}

export interface NewSiteParams {
  /** The site's name as it shall stand in the text. */
  readonly name: string;
}

/** The content of a file of identities (a character for each byte) with the passphrase that protects it, or a passphrase that files were sealed with. */
export interface Secret {
  readonly identities?: string;
  readonly passphrase?: string;
}

export interface UnlockParams {
  readonly secrets: readonly Secret[];
}

export interface UnlockResult {
  /** Why the last of them cannot be used, in words, without a full stop. The others are used all the same. */
  readonly refused?: string;
  /** The last of them is protected, and no passphrase came with it. */
  readonly needsPassphrase?: true;
}

export interface UnsealParams {
  readonly uri: string;
}

/** `refused`: in words, without a full stop. */
export type UnsealResult = { readonly text: string } | { readonly refused: string };

export interface ResealParams {
  readonly uri: string;
  readonly text: string;
}

export interface ResealResult {
  readonly refused?: string;
}
