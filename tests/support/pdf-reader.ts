/** A PDF file read back by a library that shares nothing with the one that wrote it. */
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

export interface ReadPage {
  /** In points. */
  readonly width: number;
  readonly height: number;
  /** The words of the page, in the order written, with one space between runs. */
  readonly text: string;
  /** The lowest and the furthest right that a run of words reaches, in points from the top left. */
  readonly lowest: number;
  readonly furthest: number;
}

export interface ReadPdf {
  readonly title: string;
  readonly language: string;
  /** Those whose shapes are in the file, as far as they are used. */
  readonly fonts: readonly string[];
  readonly pages: readonly ReadPage[];
}

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({ data: new Uint8Array(bytes), useSystemFonts: false, verbosity: 0 });
  const file = await task.promise;
  const { info } = await file.getMetadata();
  const known = info as { readonly Title?: string; readonly Language?: string };
  const raw = new TextDecoder("latin1").decode(bytes);
  const fonts = new Set([...raw.matchAll(/\/FontName \/[A-Z]{6}\+([\w-]+)/g)].map(([, name = ""]) => name));
  const pages: ReadPage[] = [];
  for (let number = 1; number <= file.numPages; number++) {
    const page = await file.getPage(number);
    const { width, height } = page.getViewport({ scale: 1 });
    const { items } = await page.getTextContent();
    const runs = items.filter(item => "str" in item);
    pages.push({
      width,
      height,
      text: runs
        .map(({ str }) => str)
        .filter(str => str.trim() !== "")
        .join(" "),
      lowest: Math.max(...runs.map(({ transform }) => height - transform[5])),
      furthest: Math.max(...runs.map(run => run.transform[4] + run.width)),
    });
  }
  await task.destroy();
  return { title: known.Title ?? "", language: known.Language ?? "", fonts: [...fonts].sort(), pages };
}
