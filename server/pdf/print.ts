/** Run sheets as one PDF file, or what the fonts cannot show of them. */
import type { Sheet } from "../../shared/sheet/shape.ts";
import type { Fonts } from "./pages.ts";
import { bind, lackingIn } from "./pages.ts";
import { sheetPages } from "./sheet-pages.ts";

/** `lacks`: characters that the fonts have no shape for; then nothing is printed, since a name would lack a letter. */
export type Printed = { readonly pdf: Uint8Array } | { readonly lacks: readonly string[] };

export async function printSheets(sheets: readonly Sheet[], fonts: Fonts): Promise<Printed> {
  const lacks = lackingIn(textsIn(sheets), fonts);
  if (lacks.length > 0) return { lacks };
  const title = `Run sheet ${sheets.map(({ number, label }) => `${number}, ${label}`).join("; ")}`;
  return { pdf: await bind(sheets.map(sheetPages), fonts, title, sheets[0]?.date ?? "2000-01-01") };
}

/** Every text in a value, however deep. */
export function* textsIn(value: unknown): Iterable<string> {
  if (typeof value === "string") yield value;
  else if (typeof value === "object" && value !== null) for (const inner of Object.values(value)) yield* textsIn(inner);
}
