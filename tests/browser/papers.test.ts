/** The papers beside the run sheet in a real browser: hostile labels, on paper, on a phone, for everyone. */
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { html } from "../../shared/papers/formats/html.ts";
import { papers } from "../../shared/papers/index.ts";
import type { Paper } from "../../shared/papers/paper.ts";
import { violations } from "./axe.ts";
import type { Screen } from "./browser.ts";
import { openScreen, phone } from "./browser.ts";
import { hostile } from "./hostile.ts";
import { today, wharfSite } from "./wharf.ts";

let screen: Screen;
beforeAll(async () => {
  screen = await openScreen();
}, 60_000);
afterAll(() => screen.close());

const made = papers.map(kind => [kind.name, kind.make(wharfSite(), { today, hideCodes: false })] as const);

/** The paper with other words in every place where the text's words stand. */
function saying(words: string, paper: Paper): Paper {
  return JSON.parse(JSON.stringify(paper), (key, value) =>
    typeof value === "string" && !["is", "file", "date", "name"].includes(key) ? words : value,
  );
}

describe.each(hostile.map(words => [words.slice(0, 30), words] as const))("the label %s", (_, words) => {
  test("is text on every paper", async () => {
    const { page, complaints } = await screen.show(html.render(made.flatMap(([, [first]]) => (first ? [saying(words, first)] : []))));
    expect(await page.locator("h1").textContent()).toContain(words);
    for (const cell of await page.locator("td:not(:has(.box)), dd, .secret strong, kbd").all())
      expect(await cell.textContent()).toBe(words);
    expect(await page.locator("script, img, svg, iframe").count()).toBe(0);
    expect(await page.locator("body").evaluate(body => getComputedStyle(body).maxWidth)).toBe("832px");
    expect(complaints).toEqual([]);
  });
});

test("no script runs on a paper, not even one that is planted", async () => {
  const [[, slips] = ["", []]] = made.filter(([name]) => name === "slips");
  const { page, complaints } = await screen.show(html.render(slips.slice(0, 1)));
  await page.evaluate(() => {
    const planted = document.createElement("script");
    planted.textContent = "document.title = 'planted'";
    document.body.append(planted);
  });
  expect(await page.title()).toBe("Slip, Tannery Wharf");
  expect(complaints.join()).toContain("Content Security Policy");
});

describe.each(made)("%s", (name, [paper]) => {
  const text = () => html.render(paper ? [paper] : []);

  test.each(["light", "dark"] as const)("axe finds nothing, %s", async colorScheme => {
    const { page } = await screen.show(text(), { colorScheme, bypassCSP: true });
    expect(await violations(page)).toEqual([]);
  });

  test("fits a phone", async () => {
    const { page } = await screen.show(text(), phone);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(375);
  });

  test("prints on as many pages as it should", async () => {
    const { page } = await screen.show(text());
    const pdf = (await page.pdf({ format: "A4" })).toString("latin1");
    const doors = paper?.parts.filter(({ is }) => is === "page").length ?? 0;
    expect(pdf.match(/\/Type\s*\/Page\b/g)?.length).toBe(name === "handover" ? 1 + doors : 1);
  });
});
