/** Sheets and papers as the content of a file, in the form that was asked for. */
import { paperFormats } from "../../../shared/papers/formats/index.ts";
import type { Paper } from "../../../shared/papers/paper.ts";
import { formats } from "../../../shared/sheet/formats/index.ts";
import type { Sheet } from "../../../shared/sheet/shape.ts";
import type { Printed } from "../../pdf/print.ts";
import { ToolProblem } from "../../tool-problem.ts";

export interface Rendered {
  readonly content: string | Uint8Array;
  /** Of the file, without the dot: another one than was asked for where `lacks` says why. */
  readonly extension: string;
  readonly lacks?: readonly string[];
}

export type Render<Thing> = (things: readonly Thing[]) => Promise<Rendered>;

/** @throws ToolProblem for a form that there is not */
export function renderSheetsAs(name: string): Render<Sheet> {
  const format = formats.find(one => one.name === (name === "pdf" ? "html" : name));
  if (!format) throw new ToolProblem(`no sheet is written as ${name}`);
  return printing(name, format, async sheets => (await import("../../pdf/main.ts")).sheetsPdf(sheets));
}

/** @throws ToolProblem for a form that there is not */
export function renderPapersAs(name: string): Render<Paper> {
  const format = paperFormats.find(one => one.name === (name === "pdf" ? "html" : name));
  if (!format) throw new ToolProblem(`no paper is written as ${name}`);
  return printing(name, format, async papers => (await import("../../pdf/main.ts")).papersPdf(papers));
}

function printing<Thing>(
  name: string,
  format: { readonly extension: string; render(things: readonly Thing[]): string },
  print: (things: readonly Thing[]) => Promise<Printed>,
): Render<Thing> {
  const asText = (things: readonly Thing[]): Rendered => ({ content: format.render(things), extension: format.extension });
  if (name !== "pdf") return async things => asText(things);
  return async things => {
    const printed = await print(things);
    return "pdf" in printed ? { content: printed.pdf, extension: "pdf" } : { ...asText(things), lacks: [lackWords(printed.lacks)] };
  };
}

/** The path with another extension in place of its own. */
export function withExtension(path: string, extension: string): string {
  return `${path.replace(/\.[^./\\]+$/, "")}.${extension}`;
}

/** Beyond so many, the rest is only counted. Our own choice. */
const mostLetters = 8;

function lackWords(letters: readonly string[]): string {
  const named = letters
    .slice(0, mostLetters)
    .map(letter => `${letter} (U+${(letter.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, "0")})`);
  const more = letters.length > mostLetters ? ` and ${letters.length - mostLetters} more` : "";
  return `not as PDF: its font has no ${named.join(", ")}${more}; written as HTML, which prints from any browser`;
}
