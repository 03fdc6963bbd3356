/** What is wanted of each thing that is measured, and whether it was met. */

/** `ratio` and `bytes` hold on any machine; `ms` says something of this one, and is printed but never held against anybody. */
export type Unit = "ratio" | "bytes" | "ms";

export interface Figure {
  readonly what: string;
  readonly unit: Unit;
  readonly value: number;
  /** At most this, or at least where `least` is said. */
  readonly wanted?: number;
  readonly least?: true;
}

export function isMet({ value, wanted, least }: Figure): boolean {
  return wanted === undefined || (least ? value >= wanted : value <= wanted);
}

/** Missed by so much that it cannot be chance: by more than twice. */
export function isFarOff({ value, wanted, least }: Figure): boolean {
  return wanted !== undefined && (least ? value * 2 < wanted : value > wanted * 2);
}

export function table(figures: readonly Figure[]): string {
  const rows = figures.map(figure => [
    figure.what,
    spoken(figure.value, figure.unit),
    figure.wanted === undefined ? "" : `${figure.least ? "at least" : "at most"} ${spoken(figure.wanted, figure.unit)}`,
    figure.wanted === undefined ? "" : isMet(figure) ? "met" : isFarOff(figure) ? "missed by far" : "missed",
  ]);
  const widths = [0, 1, 2, 3].map(column => Math.max(...rows.map(row => row[column]?.length ?? 0)));
  return rows
    .map(row =>
      row
        .map((cell, column) => cell.padEnd(widths[column] ?? 0))
        .join("  ")
        .trimEnd(),
    )
    .join("\n");
}

function spoken(value: number, unit: Unit): string {
  if (unit === "bytes") return value < 1_000_000 ? `${(value / 1000).toFixed(0)} kB` : `${(value / 1_000_000).toFixed(0)} MB`;
  if (unit === "ratio") return `${value < 100 ? value.toFixed(1) : value.toFixed(0)} times`;
  return `${value < 10 ? value.toFixed(1) : value.toFixed(0)} ms`;
}
