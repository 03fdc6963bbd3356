/** Damage stays local: with one line of a sample deleted or cut, every other declaration and its outline are read as before. */
import { parse } from "../../../grammar/parse.ts";
import type { Declaration } from "../../../grammar/tree.ts";
import { outlineOf } from "../../../shared/editor/outline.ts";
import type { FileId } from "../../../shared/finding.ts";
import { corpus } from "./corpus.ts";
import { holds } from "./holds.ts";

/** One line of one text, cut at a column; undefined: the line is deleted, its end with it. */
export interface Damage {
  readonly file: FileId;
  readonly text: string;
  /** From 0. */
  readonly line: number;
  readonly column: number | undefined;
}

/** Every line of every text that is in order, deleted, and cut at every column. */
export const damages: readonly Damage[] = corpus
  .filter(({ text }) => parse(text).problems.length === 0)
  .flatMap(({ file, text }) =>
    text.split("\n").flatMap((own, line): Damage[] => {
      if (own.trim() === "") return [];
      const columns = [undefined, ...Array.from({ length: own.length }, (_, column) => column)];
      return columns.map(column => ({ file, text, line, column }));
    }),
  );

export function damaged({ text, line, column }: Damage): string {
  const lines = text.split("\n");
  const left = column === undefined ? [] : [(lines[line] ?? "").slice(0, column)];
  return [...lines.slice(0, line), ...left, ...lines.slice(line + 1)].join("\n");
}

/** Of one declaration: its tree and its outline, without where they stand. */
const readings = new Map<string, readonly { readonly node: Declaration; readonly said: string }[]>();

function readingsOf(text: string): readonly { readonly node: Declaration; readonly said: string }[] {
  const { tree } = parse(text);
  const outline = outlineOf(tree);
  return tree.declarations.map((node, index) => ({ node, said: JSON.stringify([node, outline[index]], placeless) }));
}

function placeless(key: string, value: unknown): unknown {
  return key === "start" || key === "end" ? undefined : value;
}

export function checkDamage(damage: Damage): void {
  const { text, line, column } = damage;
  const before = readings.get(text) ?? readingsOf(text);
  readings.set(text, before);
  const lines = text.split("\n");
  const start = lines.slice(0, line).reduce((sum, own) => sum + own.length + 1, 0);
  const end = start + (lines[line] ?? "").length;
  const others = before.filter(({ node }) => node.end < start || node.start > end);
  // Without the word that begins it, what is in a holder reads as more of the holder above: that text is in order, and no parser can tell.
  const own = before.find(({ node }) => node.kind === "holder" && node.start >= start && node.start <= end);
  const above = own && before[before.indexOf(own) - 1];
  const after = damaged(damage);
  const read = new Map<string, number>();
  for (const { said } of readingsOf(after)) read.set(said, (read.get(said) ?? 0) + 1);
  for (const other of others) {
    const times = read.get(other.said) ?? 0;
    read.set(other.said, times - 1);
    if (times > 0 || other === above) continue;
    holds(false, `${damageWords(column)} changes the ${other.node.kind} at ${other.node.start}`);
  }
  const { length } = parse(after).problems;
  holds(length <= 3, `${damageWords(column)} gives ${length} problems`);
}

function damageWords(column: number | undefined): string {
  return column === undefined ? "a line deleted" : `a line cut at ${column}`;
}
