/** Run sheets, or papers, as one PDF file, or what the fonts cannot show of them. */
import type { Paper } from "../../shared/papers/paper.ts";
import type { Sheet } from "../../shared/sheet/shape.ts";
import type { Bound, Fonts } from "./pages.ts";
import { bind, lackingIn } from "./pages.ts";
import { paperPages } from "./paper-pages.ts";
import { sheetPages } from "./sheet-pages.ts";

/** `lacks`: characters that the fonts have no shape for; then nothing is printed, since a name would lack a letter. */
export type Printed = { readonly pdf: Uint8Array } | { readonly lacks: readonly string[] };

export function printSheets(sheets: readonly Sheet[], fonts: Fonts): Promise<Printed> {
  const title = `Run sheet ${sheets.map(({ number, label }) => `${number}, ${label}`).join("; ")}`;
  return print(sheets, sheetPages, title, fonts);
}

export function printPapers(papers: readonly Paper[], fonts: Fonts): Promise<Printed> {
  const title = [...new Set(papers.map(paper => `${paper.title}, ${paper.site}`))].join("; ");
  return print(papers, paperPages, title, fonts);
}

async function print<Thing extends { readonly date: string }>(
  things: readonly Thing[],
  pages: (thing: Thing) => Bound,
  title: string,
  fonts: Fonts,
): Promise<Printed> {
  const lacks = lackingIn(textsIn(things), fonts);
  if (lacks.length > 0) return { lacks };
  return { pdf: await bind(things.map(pages), fonts, title, things[0]?.date ?? "2000-01-01") };
}

/** Every text in a value, however deep. */
function* textsIn(value: unknown): Iterable<string> {
  if (typeof value === "string") yield value;
  else if (typeof value === "object" && value !== null) for (const inner of Object.values(value)) yield* textsIn(inner);
}
