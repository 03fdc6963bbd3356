/** The HTML run sheet in a real browser: on a phone, on paper, with scripts blocked, with hostile labels. */
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { html } from "../../shared/sheet/formats/html.ts";
import type { Sheet, SheetEntry } from "../../shared/sheet/shape.ts";
import { entry, labelledWith, sheet } from "../shared/sheet/made-sheet.ts";
import { readPdf } from "../support/pdf-reader.ts";
import { violations } from "./axe.ts";
import type { Screen } from "./browser.ts";
import { openScreen, phone } from "./browser.ts";
import { hostile } from "./hostile.ts";

let screen: Screen;
beforeAll(async () => {
  screen = await openScreen();
}, 60_000);
afterAll(() => screen.close());

/** A sheet of so many entries; the second may not be skipped. */
function long(count: number, words = (_n: number) => entry.text): Sheet {
  const entries = Array.from(
    { length: count },
    (_, index): SheetEntry => ({
      ...entry,
      n: index + 1,
      text: words(index + 1),
      skippable: index !== 1,
      neededBy: index === 1 ? [3] : [],
    }),
  );
  return { ...sheet, counts: { entries: count, keys: count * 10 }, sessions: sheet.sessions.map(session => ({ ...session, entries })) };
}

const press = (page: Page, what: string) => page.click(`[data-do=${what}]`);
const heading = (page: Page) => page.locator(".step.now :is(h2, h3)").textContent();
const progress = (page: Page) => page.locator(".progress").textContent();

describe("on a phone", () => {
  test("one entry at a time, with skip and not sure, to the words for the record", async () => {
    const { page, complaints } = await screen.show(html.render([long(5)]), phone);
    expect(await heading(page)).toBe("Before you start");
    await press(page, "go");
    expect(await heading(page)).toBe("Enter programming mode");
    await press(page, "go");
    expect(await heading(page)).toContain("Unit 2's code into slot 02 of Foot gate");
    expect(await page.locator(".step:visible").count()).toBe(1);
    expect(await progress(page)).toBe("Entry 1 of 5. 0 done, 5 left.");
    await press(page, "go");
    expect(await page.locator("[data-do=skip]").isDisabled()).toBe(true);
    await press(page, "go");
    await press(page, "skip");
    await press(page, "doubt");
    await press(page, "go");
    expect(await heading(page)).toBe("Leave programming mode");
    await press(page, "go");
    expect(await heading(page)).toBe("Try: Unit 2's code");
    await press(page, "go");
    expect(await page.locator(".record").textContent()).toBe("mullion record FILE --keypad gate --sheet 7K3-Q9M --done 1-2,5 --doubt 4");
    expect(complaints).toEqual([]);
  });

  test("keeps its place over a reload, forgets it when finished, and never keeps a code", async () => {
    const { page } = await screen.show(html.render([long(3)]), phone);
    for (let step = 0; step < 3; step++) await press(page, "go");
    await page.reload();
    expect(await progress(page)).toBe("Entry 2 of 3. 1 done, 2 left.");
    await press(page, "back");
    expect(await progress(page)).toBe("Entry 1 of 3, done. 1 done, 2 left.");
    const kept = await page.evaluate(() => JSON.stringify(Object.entries(localStorage)));
    expect(kept).not.toContain("00421");
    for (let step = 0; step < 5; step++) await press(page, "go");
    expect(await page.locator(".record").textContent()).toContain("--all");
    await press(page, "go");
    expect(await page.evaluate(() => localStorage.length)).toBe(0);
  });

  test("a swipe goes on and back, the arrow keys too", async () => {
    const { page } = await screen.show(html.render([long(3)]), phone);
    const swipe = (from: number, to: number) =>
      page.evaluate(
        ([start, end]) => {
          const touch = (x: number) => new Touch({ identifier: 1, target: document.body, clientX: x, clientY: 300 });
          document.body.dispatchEvent(new TouchEvent("touchstart", { bubbles: true, touches: [touch(start ?? 0)] }));
          document.body.dispatchEvent(new TouchEvent("touchend", { bubbles: true, changedTouches: [touch(end ?? 0)] }));
        },
        [from, to],
      );
    await swipe(300, 100);
    expect(await heading(page)).toBe("Enter programming mode");
    await swipe(100, 300);
    expect(await heading(page)).toBe("Before you start");
    await page.keyboard.press("ArrowRight");
    expect(await heading(page)).toBe("Enter programming mode");
  });

  test("an entry fits on the screen, and what is tapped is large enough", async () => {
    const { page } = await screen.show(html.render([long(3)]), phone);
    await press(page, "go");
    await press(page, "go");
    const remarks = await page.locator(".step.now .refusal").boundingBox();
    const bar = await page.locator(".bar").boundingBox();
    expect((remarks?.y ?? 0) + (remarks?.height ?? 0)).toBeLessThanOrEqual(bar?.y ?? 0);
    for (const button of await page.locator("button:visible").all()) {
      const box = await button.boundingBox();
      expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(44);
    }
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(375);
  });
});

/** WCAG 2.2, 2.4.11, Focus Not Obscured: 375 × 667 enlarged twice, 1280 × 1024 enlarged four times (1.4.10), and a phone on its side. */
test.each([
  [188, 334],
  [320, 256],
  [667, 375],
  [568, 320],
])("on %i × %i the step that is read is not under the buttons, and nothing is wider than the screen", async (width, height) => {
  const { page } = await screen.show(html.render([long(5)]), { ...phone, viewport: { width: Math.min(width, 640), height } });
  await page.setViewportSize({ width, height });
  for (let step = 0; step < 3; step++) await press(page, "go");
  expect(await heading(page)).toContain("Unit 2's code into slot 02 of Foot gate");
  // All of an entry can be scrolled to where the buttons are not.
  for (const part of [":is(h2, h3)", ".slot", ".keys", ".outcome"]) {
    const hidden = await page.locator(`.step.now ${part}`).evaluate(element => {
      element.scrollIntoView({ block: "start" });
      const { left, top, bottom } = element.getBoundingClientRect();
      const at = document.elementFromPoint(left + 4, (top + Math.min(bottom, innerHeight)) / 2);
      return at?.closest(".bar") !== null;
    });
    expect([part, hidden]).toEqual([part, false]);
  }
  for (const words of [".head strong", ".step.now h3"])
    expect((await page.locator(words).first().boundingBox())?.width, `${words}: words are not broken into letters`).toBeGreaterThan(80);
  await page.evaluate(() => scrollTo(0, 0));
  const [top, bar] = await page.evaluate(() => {
    const of = (what: string) => document.querySelector(what)?.getBoundingClientRect();
    return [of(".step.now h3")?.top ?? 0, of(".bar")?.top ?? 0];
  });
  expect(top + 20).toBeLessThan(bar);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
});

test("with scripts blocked it is the paper sheet", async () => {
  const { page, complaints } = await screen.show(html.render([long(4)]), { ...phone, javaScriptEnabled: false });
  expect(await page.locator(".entry:visible").count()).toBe(4);
  expect(await page.locator("button:visible").count()).toBe(0);
  expect(complaints).toEqual([]);
});

describe("on paper", () => {
  test.each(["A4", "Letter"])("%s: every page says what it is and which of how many, and no entry is broken", async format => {
    const { page } = await screen.show(html.render([long(60, n => `Entry words ${n}.`)]));
    const { pages } = await readPdf(await page.pdf({ format, preferCSSPageSize: false }));
    expect(pages.length).toBeGreaterThan(4);
    expect(pages.length).toBeLessThan(16);
    for (const [index, { text }] of pages.entries()) {
      expect(text).toContain("Tannery Wharf: Lane gate");
      expect(text).toContain("Run sheet 7K3-Q9M");
      expect(text).toContain(`page ${index + 1} of ${pages.length}`);
    }
    for (let n = 1; n <= 60; n++) {
      const own = pages.filter(({ text }) => text.includes(`Entry words ${n}.`));
      expect(own).toHaveLength(1);
      const [, behind = ""] = own[0]?.text.split(`Entry words ${n}.`) ?? [];
      expect(behind, `entry ${n}`).toContain("Typing it again is harmless.");
    }
  });

  test("one entry at a time on the screen is still the whole sheet on paper", async () => {
    const { page } = await screen.show(html.render([long(6)]), phone);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".entry:visible").count()).toBe(6);
    expect(await page.locator(".bar:visible").count()).toBe(0);
  });
});

describe("labels", () => {
  test.each(hostile.map(words => [words.slice(0, 30), words]))("%s is text", async (_, words) => {
    const { page, complaints } = await screen.show(html.render([labelledWith(words)]));
    expect(await page.locator(".entry h3").textContent()).toContain(`${words}'s code into slot 02 of ${words}`);
    expect(await page.title()).toBe(`Run sheet 7K3-Q9M, ${words}`.replace(/\s+/g, " ").trim());
    expect(await page.locator("script").count()).toBe(1);
    expect(await page.locator("img").count()).toBe(0);
    expect(await page.locator("body").evaluate(body => getComputedStyle(body).maxWidth)).toBe("832px");
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth)).toBe(true);
    expect(complaints).toEqual([]);
  });
});

test("nothing but its own style and script runs in it", async () => {
  const { page, complaints } = await screen.show(html.render([sheet]));
  await page.evaluate(() => {
    const planted = document.createElement("script");
    planted.textContent = "document.title = 'planted'";
    document.body.append(planted);
  });
  expect(await page.title()).not.toBe("planted");
  expect(complaints.join()).toContain("Content Security Policy");
});

test("ten thousand entries still open", async () => {
  const { page } = await screen.show(html.render([long(10_000)]), phone);
  await press(page, "go");
  await press(page, "go");
  expect(await progress(page)).toBe("Entry 1 of 10000. 0 done, 10000 left.");
}, 60_000);

describe("for everyone", () => {
  const views = [
    ["the whole sheet, light", { colorScheme: "light" }],
    ["the whole sheet, dark", { colorScheme: "dark" }],
    ["one entry, light", { ...phone, colorScheme: "light" }],
    ["one entry, dark", { ...phone, colorScheme: "dark" }],
  ] as const;
  test.each(views)("axe finds nothing in %s", async (_, options) => {
    const { page } = await screen.show(html.render([long(3)]), { ...options, bypassCSP: true });
    if ("hasTouch" in options) for (let step = 0; step < 2; step++) await press(page, "go");
    expect(await violations(page)).toEqual([]);
  });
});
