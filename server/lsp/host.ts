/** What the language server is given from outside: files and the day. Nothing here knows Node or a browser. */
import type { RandomBytes } from "../../shared/codes/draw.ts";
import type { FileId } from "../../shared/finding.ts";
import type { Secret, UnlockResult } from "../../shared/requests.ts";
import type { Day } from "../../shared/site/site.ts";

export interface Host {
  /** The text of a file; undefined where there is none or it cannot be read. */
  read(file: FileId): Promise<string | undefined>;
  /** Every `*.mullion` file at or below a folder; empty where there is no such folder. */
  find(folder: FileId): Promise<readonly FileId[]>;
  today(): Day;
  /** Bytes from the system's secure random source. */
  random: RandomBytes;
  /** Sealed files; undefined where they cannot be opened. */
  readonly sealed?: SealedHost;
  /** Whether files of this scheme are read here; the others are asked of the editor. */
  reads(scheme: string): boolean;
}

export interface SealedHost {
  /** In place of all that was given before. */
  unlock(secrets: readonly Secret[]): Promise<UnlockResult>;
  /** What became of it; undefined where there is no such file. The reasons are in words, without a full stop. */
  open(file: FileId): Promise<{ readonly text: string } | { readonly shut: string } | { readonly unreadable: string } | undefined>;
  /** Answers with why nothing was written, in words, without a full stop. @param others files of the same site: a new record is for whom they are */
  seal(file: FileId, text: string, others: readonly FileId[]): Promise<string | undefined>;
}
