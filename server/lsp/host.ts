/** What the language server is given from outside: files and the day. Nothing here knows Node or a browser. */
import type { RandomBytes } from "../../shared/codes/draw.ts";
import type { FileId } from "../../shared/finding.ts";
import type { Day } from "../../shared/site/site.ts";

export interface Host {
  /** The text of a file; undefined where there is none or it cannot be read. */
  read(file: FileId): Promise<string | undefined>;
  /** Every `*.mullion` file at or below a folder; empty where there is no such folder. */
  find(folder: FileId): Promise<readonly FileId[]>;
  today(): Day;
  /** Bytes from the system's secure random source. */
  random: RandomBytes;
  /** Whether files of this scheme are read here; the others are asked of the editor. */
  reads(scheme: string): boolean;
}
