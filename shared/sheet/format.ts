/** A form that a run sheet is written in. */
import type { Sheet } from "./shape.ts";

export interface Format {
  readonly name: string;
  /** Of the file, without the dot. */
  readonly extension: string;
  /** The sheets of one site, in order, as the text of one file. */
  render(sheets: readonly Sheet[]): string;
}
