/** A walk through the workbench, as a person would take it: each step goes on from where the one before has left. */
import assert from "node:assert/strict";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";

export interface Step {
  readonly name: string;
  /** `folder` is the one that is open; `kept` is where VS Code keeps what it needs for itself: settings, backups, history. */
  run(at: { readonly page: Page; readonly folder: string; readonly kept: string }): Promise<void>;
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
      // By VS Code's own command: a browser's reload may come before the workbench has kept which tabs are open.
      for (let attempt = 1; ; attempt++) {
        const reloaded = page.waitForEvent("load", { timeout: 10_000 }).then(
          () => true,
          () => false,
        );
        await command(page, "Developer: Reload Window");
        if (await reloaded) break;
        if (attempt === 3) throw new Error("the window does not reload");
      }
      await page.locator(".monaco-workbench").waitFor();
      await inFrame(page, /into slot 06 of River gate/);
    },
  },
  {
    name: "unlock a sealed file and see its text",
    async run({ page, folder }) {
      await openSealed(page);
      await inFrame(page, /This file is sealed/);
      const identity = /AGE-SECRET-KEY-\w+/.exec(await readFile(join(folder, "saltings-yard/test-identity.txt"), "utf8"))?.[0] ?? "";
      await command(page, "Mullion: Unlock Sealed Files");
      await page.locator(".quick-input-list").getByText("Identity", { exact: true }).click();
      const box = page.locator(".quick-input-widget input[type=password]");
      await box.fill(identity);
      await box.press("Enter");
      await line(page, "holder berth1").waitFor();
    },
  },
  {
    name: "what VS Code keeps of a sealed text: while it is not saved its backup, saved nothing",
    async run({ page, kept }) {
      await line(page, "holder berth1").click();
      await page.keyboard.press("Home");
      await page.keyboard.type(`// ${secretWords}`);
      await page.keyboard.press("Enter");
      await until("a backup of what is not saved", async () => (await keptWith(kept, secretWords)).some(key => /backup/i.test(key)));
      await page.keyboard.press("Control+S");
      await page.locator(".tab.active.dirty").waitFor({ state: "detached" });
      await until("nothing kept of what is saved", async () => (await keptWith(kept, secretWords)).length === 0);
      // The same words in a plain file are kept: the search would have found them.
      await openFile(page, "curlew-court.mullion");
      await page.keyboard.press("Control+Home");
      await page.keyboard.type(`// ${secretWords}\n`);
      await page.keyboard.press("Control+S");
      await until("the local history of a plain file", async () => (await keptWith(kept, secretWords)).some(key => /history/i.test(key)));
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
  await chosen(page, "Control+P", name, name);
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
  await chosen(page, "F1", `>${title}`, title.replace(/^.*: /, ""));
}

/** Types into the box that a key opens, and takes what it lists. The box goes away when something else takes the focus: then again. */
async function chosen(page: Page, key: string, typed: string, listed: string): Promise<void> {
  for (let attempt = 1; ; attempt++) {
    await page.keyboard.press(key);
    try {
      await page.locator(".quick-input-widget input").fill(typed, { timeout: 3_000 });
      // Clicked, since a list that is just being filled takes no key.
      return await page.locator(".quick-input-list").getByText(listed).first().click({ timeout: 3_000 });
    } catch (error) {
      if (attempt === 5) throw error;
      await page.keyboard.press("Escape");
    }
  }
}

/** Picks a keypad where the site has several; where it has one, nothing is asked. */
async function pickKeypad(page: Page, label: string): Promise<void> {
  const list = page.locator(".quick-input-list");
  const asked = list.getByText("All keypads");
  await asked.waitFor({ timeout: 2000 }).catch(() => {});
  if (!(await asked.isVisible())) return;
  await list.getByText(label, { exact: true }).first().click();
}

const secretWords = "lapwings on the saltings at dusk";

async function openSealed(page: Page): Promise<void> {
  await chosen(page, "Control+P", "people.mullion.age", "people.mullion.age");
}

async function until(what: string, look: () => Promise<boolean>): Promise<void> {
  const end = Date.now() + 20_000;
  while (!(await look())) {
    if (Date.now() > end) throw new Error(`waited in vain for ${what}`);
    await new Promise(resolve => setTimeout(resolve, 250));
  }
}

/** Files in which VS Code keeps, for its own use, anything with these words in it. */
async function keptWith(kept: string, words: string): Promise<string[]> {
  const names = await readdir(kept, { recursive: true });
  const found = await Promise.all(
    names.map(async name => ((await readFile(join(kept, name)).catch(() => "")).includes(words) ? [name] : [])),
  );
  return found.flat();
}

/** Waits until a page that VS Code shows in a frame of its own has this text, and answers with where it stands. */
async function inFrame(page: Page, text: string | RegExp): Promise<Locator> {
  const end = Date.now() + 30_000;
  for (;;) {
    for (const frame of page.frames().filter(one => one !== page.mainFrame())) {
      const place = frame.getByText(text).first();
      if (await place.isVisible().catch(() => false)) return place;
    }
    if (Date.now() > end) throw new Error(`no page in a frame shows "${text}"`);
    await page.waitForTimeout(100);
  }
}
