/** A walk through the workbench, as a person would take it: each step goes on from where the one before has left. */
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";

export interface Step {
  readonly name: string;
  run(at: { readonly page: Page; readonly folder: string }): Promise<void>;
}

const siteFile = "tannery-wharf.mullion";

export const steps: readonly Step[] = [
  {
    name: "open Tannery Wharf",
    async run({ page }) {
      await page.locator(".monaco-workbench").waitFor();
      await page.locator(".explorer-folders-view").getByText("tannery-wharf").waitFor();
      await openFile(page, siteFile);
      await line(page, "01 u1").waitFor();
      // The first word of the text has a keyword's colour and the name after it another one.
      const colours = await line(page, 'site "Tannery Wharf"')
        .locator("span span")
        .evaluateAll(pieces => [...new Set(pieces.map(piece => getComputedStyle(piece).color))]);
      assert(colours.length > 1, `one colour only: ${colours.join(" ")}`);
    },
  },
  {
    name: "see how many entries wait",
    async run({ page }) {
      await page
        .locator(".statusbar")
        .getByText(/\d+ to type/)
        .waitFor();
      await page
        .locator(".codelens-decoration")
        .getByText(/to type/)
        .first()
        .waitFor();
    },
  },
  {
    name: "rest on an entry and see its keys",
    async run({ page }) {
      await line(page, "01 u1").getByText("u1", { exact: true }).hover();
      await page.locator(".monaco-hover-content").getByText("48291").first().waitFor();
    },
  },
  {
    name: "take a slot twice and be warned",
    async run({ page }) {
      await select(page, "02 u2");
      await page.keyboard.type("01 u2");
      await page.keyboard.press("Escape");
      await page.locator(".squiggly-error").first().waitFor();
      await page.keyboard.press("Control+Shift+M");
      await page.locator(".markers-panel").getByText("slot-clash").waitFor();
    },
  },
  {
    name: "read why",
    async run({ page }) {
      await page.locator(".markers-panel").getByText("slot-clash").click();
      await inFrame(page, "Two entries in one slot");
      await page.locator(".tab", { hasText: siteFile }).click();
      await line(page, "01 u2").waitFor();
    },
  },
  {
    name: "take the way out that is offered",
    async run({ page }) {
      await line(page, "01 u2").getByText("u2", { exact: true }).click();
      await page.keyboard.press("Control+.");
      await page.locator(".action-widget").getByText(/slot/).first().waitFor();
      await page.keyboard.press("Enter");
      await page.locator(".squiggly-error").first().waitFor({ state: "detached" });
      await page.keyboard.press("Control+J");
    },
  },
  {
    name: "rename a holder",
    async run({ page }) {
      await line(page, "03 u3").getByText("u3", { exact: true }).click();
      await page.keyboard.press("F2");
      const box = page.locator(".rename-box input, .rename-input");
      await box.fill("printers");
      await page.keyboard.press("Enter");
      await line(page, "03 printers").waitFor();
      await select(page, "printers.bike");
    },
  },
  {
    name: "preview the run sheet",
    async run({ page }) {
      await page
        .getByRole("button", { name: /Preview Run Sheet/ })
        .first()
        .click();
      await pickKeypad(page, "Lane gate");
      await inFrame(page, "Lane gate");
      await inFrame(page, "Have the installer code in hand");
    },
  },
  {
    name: "see the preview follow the text",
    async run({ page }) {
      await select(page, "Foot gate");
      await page.keyboard.type("River gate");
      await page.keyboard.press("Escape");
      await inFrame(page, "River gate");
    },
  },
  {
    name: "go from the sheet to the text and back",
    async run({ page }) {
      await (await inFrame(page, /into slot 05 of River gate/)).click();
      await page.locator(".tab.active").getByText(siteFile).waitFor();
      await page
        .locator(".statusbar")
        .getByText(/Selected|selected/)
        .waitFor();
      await page.keyboard.press("ArrowDown");
      const marked = await inFrame(page, /into slot 06 of River gate/);
      await marked.locator("xpath=ancestor::article[contains(@class, 'here')]").waitFor();
    },
  },
  {
    name: "export the run sheet",
    async run({ page, folder }) {
      await command(page, "Mullion: Export Run Sheet");
      await pickKeypad(page, "Lane gate");
      await page.locator(".quick-input-list").getByText("Factory", { exact: true }).first().click();
      await page.locator(".explorer-folders-view").getByText("tannery-wharf-gate-sheet.html").waitFor();
      const sheet = await readFile(join(folder, "tannery-wharf", "tannery-wharf-gate-sheet.html"), "utf8");
      assert.match(sheet, /River gate/);
    },
  },
  {
    name: "walk through the first ten minutes",
    async run({ page }) {
      await command(page, "Welcome: Open Walkthrough...");
      await page.locator(".quick-input-widget input").fill("From a text to the door");
      await page.keyboard.press("Enter");
      await page.locator(".getting-started-step").nth(4).waitFor();
      assert.equal(await page.locator(".getting-started-step").count(), 5);
    },
  },
  {
    name: "find the preview again after a reload",
    async run({ page }) {
      await page.reload();
      await page.locator(".monaco-workbench").waitFor();
      await inFrame(page, /into slot 06 of River gate/);
    },
  },
  {
    name: "nothing has spoken up unasked",
    async run({ page }) {
      const said = await page.locator(".notification-list-item-message").allTextContents();
      assert.deepEqual(said, []);
      assert.equal(await page.locator(".panel .output-view").count(), 0);
    },
  },
];

/** A line of the text, by a part of it. */
function line(page: Page, part: string): Locator {
  return page.locator(".view-line", { hasText: part }).first();
}

async function openFile(page: Page, name: string): Promise<void> {
  await page.keyboard.press("Control+P");
  await page.locator(".quick-input-widget input").fill(name);
  await page.locator(".quick-input-list").getByText(name).first().waitFor();
  await page.keyboard.press("Enter");
  await page.locator(".tab.active").getByText(name).waitFor();
  await page.locator(".monaco-editor .view-line").first().click();
}

/** Selects the first place where `text` stands, by way of the find box. */
async function select(page: Page, text: string): Promise<void> {
  await page.keyboard.press("Control+1");
  await page.keyboard.press("Control+Home");
  await page.keyboard.press("Control+F");
  const find = page.locator(".find-widget textarea").first();
  await find.fill(text);
  await page.locator(".find-widget .matchesCount", { hasText: /1 of/ }).waitFor();
  await page.keyboard.press("Escape");
}

async function command(page: Page, title: string): Promise<void> {
  await page.keyboard.press("F1");
  await page.locator(".quick-input-widget input").fill(`>${title}`);
  await page.locator(".quick-input-list").getByText(title.replace(/^.*: /, "")).first().waitFor();
  await page.keyboard.press("Enter");
}

/** Picks a keypad where the site has several; where it has one, nothing is asked. */
async function pickKeypad(page: Page, label: string): Promise<void> {
  const list = page.locator(".quick-input-list");
  const asked = list.getByText("All keypads");
  await asked.waitFor({ timeout: 2000 }).catch(() => {});
  if (!(await asked.isVisible())) return;
  await list.getByText(label, { exact: true }).first().click();
}

/** Waits until a page that VS Code shows in a frame of its own has this text, and answers with where it stands. */
async function inFrame(page: Page, text: string | RegExp): Promise<Locator> {
  const end = Date.now() + 10_000;
  for (;;) {
    for (const frame of page.frames().filter(one => one !== page.mainFrame())) {
      const place = frame.getByText(text).first();
      if (await place.isVisible().catch(() => false)) return place;
    }
    if (Date.now() > end) throw new Error(`no page in a frame shows "${text}"`);
    await page.waitForTimeout(100);
  }
}
