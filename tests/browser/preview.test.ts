/** The page beside the text, in a real browser with an editor that is only listened to: draws, leads both ways, keeps its place, lets nothing in. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { FromPage, ToPage } from "../../client/preview-page.ts";
import { emptyPage } from "../../client/preview-page.ts";
import { sheetFragment } from "../../shared/sheet/formats/html.ts";
import { besideStyle, style } from "../../shared/sheet/formats/html-style.ts";
import type { Sheet, SheetEntry } from "../../shared/sheet/shape.ts";
import { entry, labelledWith, sheet } from "../shared/sheet/made-sheet.ts";
import { violations } from "./axe.ts";
import type { Screen } from "./browser.ts";
import { openScreen } from "./browser.ts";
import { hostile } from "./hostile.ts";
import { expectPicture, inKeptFont } from "./picture.ts";
import { wharfSheet } from "./wharf.ts";

let screen: Screen;
beforeAll(async () => {
  screen = await openScreen({ shipped: true });
}, 60_000);
afterAll(() => screen.close());

/** Colours as an editor's themes define them. */
const themes = {
  light: { "editor-foreground": "#3b3b3b", "editor-background": "#ffffff", descriptionForeground: "#3b3b3b", focusBorder: "#005fb8" },
  dark: { "editor-foreground": "#cccccc", "editor-background": "#1f1f1f", descriptionForeground: "#9d9d9d", focusBorder: "#0078d4" },
} as const;

const buttons = ["--vscode-button-secondaryBackground: #e5e5e5", "--vscode-button-secondaryForeground: #3b3b3b"];

/** What an editor gives to the page that it shows. */
const editor = `
  globalThis.heard = [];
  globalThis.keptState = undefined;
  globalThis.acquireVsCodeApi = () => ({
    postMessage: message => heard.push(message),
    getState: () => keptState,
    setState: state => { keptState = state; },
  });
`;

function opened(theme: keyof typeof themes = "light", bypassCSP = false) {
  const colours = Object.entries(themes[theme]).map(([name, colour]) => `--vscode-${name}: ${colour}`);
  const set = `document.documentElement.style.cssText = ${JSON.stringify([...colours, ...buttons].join("; "))};`;
  const options = { viewport: { width: 620, height: 640 }, bypassCSP };
  return screen.show(emptyPage(), options, `${editor}\naddEventListener("DOMContentLoaded", () => { ${set} });`);
}

/** Settled when the page has dealt with it: its own listener stands before this one. */
const say = (page: Page, message: ToPage) =>
  page.evaluate(
    data =>
      new Promise<void>(resolve => {
        window.addEventListener("message", () => resolve(), { once: true });
        window.postMessage(data);
      }),
    message,
  );
const heard = (page: Page): Promise<FromPage[]> => page.evaluate(() => (globalThis as unknown as { heard: FromPage[] }).heard);

const of = { uri: "file:///tannery-wharf.mullion", keypads: ["gate"] };

/** A sheet of so many entries. */
function long(count: number, keypad = "gate", words = "Entry"): Sheet {
  const entries = Array.from({ length: count }, (_, index): SheetEntry => ({ ...entry, n: index + 1, text: `${words} ${index + 1}` }));
  return { ...sheet, keypad, sessions: sheet.sessions.map(session => ({ ...session, entries })) };
}

function drawn(sheets: readonly Sheet[], held: readonly string[] = []): ToPage {
  return {
    of,
    sheets: sheets.map((one, index) => ({ keypad: one.keypad, html: sheetFragment(one, index) })),
    style: style + besideStyle,
    held,
  };
}

test("says when it listens, and shows what it is told", async () => {
  const { page, complaints } = await opened();
  expect(await heard(page)).toEqual(["listening"]);
  await say(page, drawn([long(3)]));
  expect(await page.locator("[data-n]").count()).toBe(3);
  expect(await page.locator(".box:visible").count()).toBe(0);
  await say(page, drawn([], ["Lane gate: slot 02 of Foot gate already holds Unit 2"]));
  expect(await page.locator("[data-n]").count()).toBe(0);
  expect(await page.locator("#held:visible").textContent()).toContain("already holds Unit 2");
  expect(complaints).toEqual([]);
});

test("from the sheet to the text: by click and by the Enter key", async () => {
  const { page } = await opened();
  await say(page, drawn([long(2, "gate"), long(2, "loft")]));
  await page.locator('[data-of=loft] [data-n="2"] h3').click();
  await page.locator('[data-of=gate] [data-n="1"]').focus();
  await page.keyboard.press("Enter");
  expect(await heard(page)).toEqual(["listening", { go: { keypad: "loft", n: 2 } }, { go: { keypad: "gate", n: 1 } }]);
});

test("from the text to the sheet: the entry is marked and in sight", async () => {
  const { page } = await opened();
  await say(page, drawn([long(30, "gate"), long(30, "loft")]));
  await say(page, { here: { keypad: "loft", n: 20 } });
  expect(await page.locator("[aria-current]").count()).toBe(1);
  const box = await page.locator("[data-of=loft] [data-n='20'].here").boundingBox();
  expect(box?.y).toBeGreaterThanOrEqual(0);
  expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(640);
  await say(page, { here: null });
  expect(await page.locator(".here").count()).toBe(0);
});

test("an edit leaves where the page has scrolled to, and the sheets that did not change", async () => {
  const { page } = await opened();
  await say(page, drawn([long(30, "gate"), long(30, "loft")]));
  await page.evaluate(() => {
    window.scrollTo(0, 900);
    (document.querySelector("[data-of=loft]") as HTMLElement).title = "the same element";
  });
  await say(page, drawn([long(30, "gate", "River gate"), long(30, "loft")]));
  expect(await page.locator("[data-of=gate] h3").nth(1).textContent()).toContain("River gate");
  expect(await page.evaluate(() => window.scrollY)).toBe(900);
  expect(await page.locator("[data-of=loft]").getAttribute("title")).toBe("the same element");
});

test("hidden and shown again it is where it was", async () => {
  const { page } = await opened();
  await say(page, drawn([long(40)]));
  await page.evaluate(() => window.scrollTo(0, 1200));
  await page.waitForFunction(() => (globalThis as unknown as { keptState?: { scroll?: number } }).keptState?.scroll === 1200);
  // The editor takes the page away, keeps its state, and makes it anew.
  await page.addInitScript("globalThis.keptState = { scroll: 1200 };");
  await page.reload();
  await say(page, drawn([long(40)]));
  expect(await page.evaluate(() => window.scrollY)).toBe(1200);
});

test.each(hostile.map(words => [words.slice(0, 30), words]))("the label %s is text", async (_, words) => {
  const { page, complaints } = await opened();
  await say(page, drawn([labelledWith(words)]));
  expect(await page.locator("[data-n] h3").textContent()).toContain(words);
  expect(await page.locator("script").count()).toBe(1);
  expect(await page.locator("main img, main svg, main style").count()).toBe(0);
  expect(complaints).toEqual([]);
});

test("markup that is no sheet's gets no script, no style and nothing from elsewhere into the page", async () => {
  const { page, complaints } = await opened();
  const markup =
    '<p data-n="1">1</p><script>heard.push("script")</script><img src=x onerror="heard.push(1)"><style>p{display:none}</style>';
  await say(page, { of, sheets: [{ keypad: "gate", html: markup }], style: "", held: [] });
  expect(await page.locator("[data-n]").isVisible()).toBe(true);
  expect(await page.locator("main script, main style").count()).toBe(0);
  expect(await heard(page)).toEqual(["listening"]);
  expect(complaints.filter(complaint => !complaint.includes("The action has been blocked."))).toEqual([]);
});

describe.each(["light", "dark"] as const)("in a %s theme", theme => {
  test("it takes the theme's colours, and axe finds nothing", async () => {
    const { page } = await opened(theme, true);
    await say(page, drawn([long(3)], ["Boat house: a code is missing"]));
    const rgb = (hex: string) => `rgb(${[1, 3, 5].map(at => Number.parseInt(hex.slice(at, at + 2), 16)).join(", ")})`;
    const { color, backgroundColor } = await page.evaluate(() => {
      const { color, backgroundColor } = getComputedStyle(document.body);
      return { color, backgroundColor };
    });
    expect({ color, backgroundColor }).toEqual({
      color: rgb(themes[theme]["editor-foreground"]),
      backgroundColor: rgb(themes[theme]["editor-background"]),
    });
    expect(await violations(page)).toEqual([]);
  });
});

test("preview: what stands beside the text", async () => {
  const { page } = await opened("dark", true);
  await say(page, drawn([wharfSheet()]));
  await inKeptFont(page);
  await say(page, { here: { keypad: "gate", n: 2 } });
  await expectPicture(page, "preview");
});
