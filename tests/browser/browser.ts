/** One headless browser for a test file, and pages in it that show a text as a file would be shown. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, BrowserContextOptions, LaunchOptions, Page } from "playwright-core";
import { chromium } from "playwright-core";

export interface Shown {
  readonly page: Page;
  /** What the page reported: messages, errors, and requests for anything but itself. */
  readonly complaints: readonly string[];
}

export interface Screen {
  /** @param before a script that runs before the page's own, in place of what the page is usually shown in */
  show(text: string, options?: BrowserContextOptions, before?: string): Promise<Shown>;
  close(): Promise<void>;
}

export const phone = { viewport: { width: 375, height: 667 }, hasTouch: true } as const;

/** @param how `shipped`: the browser that the npm package carries, whatever else is installed, and letters drawn alike everywhere */
export async function openScreen(how: { readonly shipped?: boolean } = {}): Promise<Screen> {
  const { chromiumOptions } = (await import(new URL("../../.ci/chromium.mjs", import.meta.url).href)) as {
    chromiumOptions(how?: { readonly shipped?: boolean }): Promise<LaunchOptions>;
  };
  const options = await chromiumOptions(how);
  const browser: Browser = await chromium.launch(
    how.shipped ? { ...options, args: [...(options.args ?? []), "--font-render-hinting=none", "--disable-lcd-text"] } : options,
  );
  const folder = mkdtempSync(join(tmpdir(), "mullion-sheet-"));
  let files = 0;
  return {
    async show(text, options = {}, before = "") {
      const file = join(folder, `sheet-${files++}.html`);
      writeFileSync(file, text);
      const page = await (await browser.newContext(options)).newPage();
      if (before !== "") await page.addInitScript(before);
      const complaints: string[] = [];
      const address = pathToFileURL(file).href;
      page.on("console", message => complaints.push(message.text()));
      page.on("pageerror", error => complaints.push(String(error)));
      page.on("dialog", dialog => {
        complaints.push("a dialog");
        void dialog.dismiss();
      });
      page.on("request", request => {
        if (request.url() !== address) complaints.push(`a request: ${request.url()}`);
      });
      await page.goto(address);
      return { page, complaints };
    },
    async close() {
      await browser.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
