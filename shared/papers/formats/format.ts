/** A form that a paper is written in. */
import type { Paper } from "../paper.ts";

export interface PaperFormat {
  readonly name: string;
  /** Of the file, without the dot. */
  readonly extension: string;
  /** Papers one after the other, as the text of one file. */
  render(papers: readonly Paper[]): string;
}
