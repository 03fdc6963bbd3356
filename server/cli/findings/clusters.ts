/** Text of any script as a terminal sets it: what a person takes for one character, and how many columns that takes. */
import stringWidth from "string-width";

const segmenter = new Intl.Segmenter("en", { granularity: "grapheme" });

export interface Cluster {
  /** UTF-16 units from the beginning of the stretch. */
  readonly index: number;
  readonly cluster: string;
}

export function clustersIn(stretch: string): readonly Cluster[] {
  return Array.from(segmenter.segment(stretch), ({ index, segment }) => ({ index, cluster: segment }));
}

/** Columns, 0 to 2 for a cluster. */
export function widthOf(drawn: string): number {
  return stringWidth(drawn);
}
