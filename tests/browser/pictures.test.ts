/** What the sheet and a slip look like, as pictures that are kept: on paper, on a phone, in the dark. */
import type { BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { html as paperHtml } from "../../shared/papers/formats/html.ts";
import { slips } from "../../shared/papers/slips.ts";
import { html } from "../../shared/sheet/formats/html.ts";
import type { Screen } from "./browser.ts";
import { openScreen, phone } from "./browser.ts";
import { expectPicture, inKeptFont } from "./picture.ts";
import { today, wharfSheet, wharfSite } from "./wharf.ts";

let screen: Screen;
beforeAll(async () => {
  screen = await openScreen({ shipped: true });
}, 60_000);
afterAll(() => screen.close());

async function shown(text: string, options: BrowserContextOptions): Promise<Page> {
  // The font comes in from outside, which the page itself would not allow.
  const { page } = await screen.show(text, { ...options, bypassCSP: true });
  await inKeptFont(page);
  return page;
}

/** Goes on until the step with this heading. */
async function goTo(page: Page, heading: RegExp): Promise<void> {
  for (let step = 0; step < 30; step++) {
    const now = await page.locator(".step.now :is(h2, h3)").textContent();
    if (heading.test(now ?? "")) return;
    await page.click("[data-do=go]");
  }
  throw new Error(`there is no step ${heading}`);
}

const sheet = html.render([wharfSheet()]);

describe("on a phone", () => {
  test.each([
    ["sheet-on-phone", "light"],
    ["sheet-on-phone-dark", "dark"],
  ] as const)("%s: one entry", async (name, colorScheme) => {
    const page = await shown(sheet, { ...phone, colorScheme });
    await goTo(page, /into slot 05/);
    await expectPicture(page, name);
  });

  test("sheet-tag-on-phone: a tag to present is drawn as something that the hand does", async () => {
    const page = await shown(sheet, phone);
    await goTo(page, /into slot 40/);
    await expectPicture(page, "sheet-tag-on-phone");
  });

  test("sheet-end-on-phone: the words for the record", async () => {
    const page = await shown(sheet, phone);
    await goTo(page, /Afterwards/);
    await expectPicture(page, "sheet-end-on-phone");
  });
});

test("sheet-on-paper: the first page, black on white", async () => {
  const page = await shown(sheet, { viewport: { width: 744, height: 1052 }, colorScheme: "dark" });
  await page.emulateMedia({ media: "print" });
  await page.addStyleTag({ content: "body { padding: 40px !important; }" });
  expect(await page.evaluate(() => getComputedStyle(document.body).color)).toBe("rgb(0, 0, 0)");
  await expectPicture(page, "sheet-on-paper");
});

test("slip: what a holder is handed", async () => {
  const text = paperHtml.render(slips.make(wharfSite(), { today, hideCodes: false, holders: ["u1"] }));
  const page = await shown(text, { viewport: { width: 560, height: 500 } });
  await expectPicture(page, "slip");
});

test.skipIf(process.env.UPDATE)("a picture that is not the one that is kept is noticed", async () => {
  const text = paperHtml.render(slips.make(wharfSite(), { today, hideCodes: false, holders: ["u1"] }));
  const page = await shown(text, { viewport: { width: 560, height: 500 } });
  await page.addStyleTag({ content: ".way { visibility: hidden; }" });
  await expect(expectPicture(page, "slip")).rejects.toThrow("slip: see out/pictures");
});
