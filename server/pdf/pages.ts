/** Pages of paper: pieces set one under the other, none broken that fits a page, and on every page what it belongs to and its number. */
import PDFKit from "pdfkit";
import type { Ink, Piece } from "./pieces.ts";
import { printable } from "./pieces.ts";

export interface Fonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
}

/** A paper of one or more pages, counted on its own. */
export interface Bound {
  /** At the head of every page, left and right. */
  readonly left: string;
  readonly right: string;
  /** Kept together each, as far as a page is long enough. "page": what follows begins a new one. */
  readonly blocks: readonly (Piece | "page")[];
}

const millimetre = 72 / 25.4;
/** Wide enough for Letter too, when a printer does not scale. */
const margin = { top: 18 * millimetre, bottom: 20 * millimetre, left: 14 * millimetre, right: 14 * millimetre };

/**
 * @param title of the file; never with a code in it
 * @param day the date that stands in the file, `YYYY-MM-DD`
 */
export function bind(bounds: readonly Bound[], fonts: Fonts, title: string, day: string): Promise<Uint8Array> {
  const ink = openInk(fonts, title, day);
  for (const bound of bounds) {
    const first = ink.bufferedPageRange().count;
    ink.addPage();
    for (const block of bound.blocks) {
      if (block === "page") {
        if (ink.y > margin.top + 1) newPage(ink);
      } else place(ink, block);
    }
    const { count } = ink.bufferedPageRange();
    for (let page = first; page < count; page++) {
      ink.switchToPage(page);
      frame(ink, bound, page - first + 1, count - first);
    }
    ink.switchToPage(count - 1);
  }
  return closed(ink);
}

/** Characters that one of the fonts has no shape for, each once, in the order met. */
export function lackingIn(texts: Iterable<string>, fonts: Fonts): readonly string[] {
  const ink = openInk(fonts, "", "2000-01-01");
  const known = ["regular", "bold"].map(name => {
    ink.font(name);
    return (ink as unknown as { readonly _font: { readonly font: { hasGlyphForCodePoint(point: number): boolean } } })._font.font;
  });
  const lacking = new Set<string>();
  for (const text of texts)
    for (const letter of printable(text)) {
      const point = letter.codePointAt(0) ?? 0;
      if (point !== 10 && !lacking.has(letter) && known.some(font => !font.hasGlyphForCodePoint(point))) lacking.add(letter);
    }
  return [...lacking];
}

function openInk(fonts: Fonts, title: string, day: string): Ink {
  const made = new Date(`${day}T12:00:00Z`);
  const ink = new PDFKit({
    size: "A4",
    margins: margin,
    autoFirstPage: false,
    bufferPages: true,
    lang: "en",
    displayTitle: true,
    info: { Title: title, Creator: "Mullion", Producer: "Mullion", CreationDate: made, ModDate: made },
    // None to begin with: the standard fonts know no Greek and no Cyrillic, and are not carried along.
    font: "",
  });
  ink.registerFont("regular", fonts.regular as unknown as PDFKit.Mixins.PDFFontSource);
  ink.registerFont("bold", fonts.bold as unknown as PDFKit.Mixins.PDFFontSource);
  return ink;
}

function newPage(ink: Ink): void {
  ink.addPage();
  ink.y = margin.top;
}

const widthOf = (ink: Ink) => ink.page.width - margin.left - margin.right;
const endOf = (ink: Ink) => ink.page.height - margin.bottom;

/** Draws a block where there is room for the whole of it, else part by part, else as words that run on. */
function place(ink: Ink, block: Piece): void {
  const width = widthOf(ink);
  const height = block.height(ink, width);
  if (height > endOf(ink) - margin.top) {
    if (block.parts && block.parts.length > 0) {
      for (const part of block.parts) place(ink, part);
      return;
    }
    if (block.flows) {
      block.flows(ink, margin.left, ink.y, width);
      return;
    }
  }
  if (ink.y + height > endOf(ink)) newPage(ink);
  const y = ink.y;
  block.draw(ink, margin.left, y, width);
  ink.y = y + height;
}

function frame(ink: Ink, { left, right }: Bound, page: number, of: number): void {
  const { bottom } = ink.page.margins;
  // Below the margin a line would begin a new page.
  ink.page.margins.bottom = 0;
  ink.font("regular").fontSize(8.5).fillColor("#000");
  const width = widthOf(ink);
  const rightWidth = ink.widthOfString(printable(right));
  ink.text(fitting(ink, printable(left), width - rightWidth - 12), margin.left, 9 * millimetre, { lineBreak: false });
  ink.text(printable(right), margin.left + width - rightWidth, 9 * millimetre, { lineBreak: false });
  const count = `page ${page} of ${of}`;
  ink.text(count, margin.left + width - ink.widthOfString(count), ink.page.height - 14 * millimetre, { lineBreak: false });
  ink.page.margins.bottom = bottom;
}

/** The text, or as much of its beginning as there is room for; the whole of it stands on the first page. */
function fitting(ink: Ink, text: string, width: number): string {
  if (ink.widthOfString(text) <= width) return text;
  const letters = [...text.slice(0, 200)];
  while (letters.length > 0 && ink.widthOfString(`${letters.join("")}…`) > width) letters.pop();
  return `${letters.join("")}…`;
}

function closed(ink: Ink): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    ink.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    ink.on("error", reject);
    ink.on("end", () => {
      const whole = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
      let at = 0;
      for (const chunk of chunks) {
        whole.set(chunk, at);
        at += chunk.length;
      }
      resolve(whole);
    });
    ink.end();
  });
}
