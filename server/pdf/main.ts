/** The part of the command line that prints PDF, with its fonts: a file of its own, loaded when one is asked for. */
import bold from "../../node_modules/@embedpdf/fonts-latin/fonts/NotoSans-Bold.ttf";
import regular from "../../node_modules/@embedpdf/fonts-latin/fonts/NotoSans-Regular.ttf";
import type { Paper } from "../../shared/papers/paper.ts";
import type { Sheet } from "../../shared/sheet/shape.ts";
import type { Printed } from "./print.ts";
import { printPapers, printSheets } from "./print.ts";

const fonts = { regular, bold };

export function sheetsPdf(sheets: readonly Sheet[]): Promise<Printed> {
  return printSheets(sheets, fonts);
}

export function papersPdf(papers: readonly Paper[]): Promise<Printed> {
  return printPapers(papers, fonts);
}
