/** Pictures that are kept and compared: taken in the browser that npm ships, in a font that npm ships, so that every machine draws the same. */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import pixelmatch from "pixelmatch";
import type { Page } from "playwright-core";
import { PNG } from "pngjs";
import { expect } from "vitest";

const golden = join(import.meta.dirname, "golden");
const seen = join(import.meta.dirname, "../../out/pictures");

/** Of the dots of a picture that may differ: edges of letters are drawn a little differently by other processors. */
const tolerance = 0.01;

const fontFolder = join(import.meta.dirname, "../../node_modules/@embedpdf/fonts-latin/fonts");
const face = (weight: number, name: string) =>
  `@font-face { font-family: Kept; font-weight: ${weight}; src: url(data:font/ttf;base64,${readFileSync(join(fontFolder, `NotoSans-${name}.ttf`)).toString("base64")}); }`;

/** Draws the page in one font; the page has to be opened with its content policy out of force. */
export async function inKeptFont(page: Page): Promise<void> {
  const fonts = [face(400, "Regular"), face(600, "SemiBold"), face(700, "Bold")].join("\n");
  await page.addStyleTag({ content: `${fonts}\nbody, body * { font-family: Kept !important; }` });
  await page.evaluate(() => Promise.all([...document.fonts].map(font => font.load())).then(() => document.fonts.ready));
}

/**
 * Compares what the page shows with the picture that is kept under this name. `UPDATE=1` keeps what is shown.
 * What is shown and what differs are left in `out/pictures` when they do not agree.
 */
export async function expectPicture(page: Page, name: string): Promise<void> {
  const shown = await page.screenshot({ animations: "disabled", caret: "hide" });
  const kept = join(golden, `${name}.png`);
  if (process.env.UPDATE) {
    writeFileSync(kept, shown);
    return;
  }
  if (!existsSync(kept)) throw new Error(`there is no picture tests/browser/golden/${name}.png; UPDATE=1 keeps one`);
  const now = PNG.sync.read(shown);
  const then = PNG.sync.read(readFileSync(kept));
  expect({ width: now.width, height: now.height }, name).toEqual({ width: then.width, height: then.height });
  const { width, height } = now;
  const difference = new PNG({ width, height });
  const dots = pixelmatch(now.data, then.data, difference.data, width, height, { threshold: 0.2 });
  if (dots > tolerance * width * height) {
    mkdirSync(seen, { recursive: true });
    writeFileSync(join(seen, `${name}.png`), shown);
    writeFileSync(join(seen, `${name}-difference.png`), PNG.sync.write(difference));
  }
  expect(dots / (width * height), `${name}: see out/pictures`).toBeLessThanOrEqual(tolerance);
}
