/** The run sheet and the papers as PDF, read back by another library. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { printPapers, printSheets } from "../../../server/pdf/print.ts";
import { papers } from "../../../shared/papers/index.ts";
import type { Paper } from "../../../shared/papers/paper.ts";
import type { Sheet, SheetEntry } from "../../../shared/sheet/shape.ts";
import { entry, labelledWith, sheet } from "../../shared/sheet/made-sheet.ts";
import { readPdf } from "../../support/pdf-reader.ts";

import { codesOf, sampleSites, standing } from "../../support/samples.ts";

const fontFolder = join(import.meta.dirname, "../../../node_modules/@embedpdf/fonts-latin/fonts");
const font = (weight: string) => new Uint8Array(readFileSync(join(fontFolder, `NotoSans-${weight}.ttf`)));
const fonts = { regular: font("Regular"), bold: font("Bold") };

async function printed(sheets: readonly Sheet[]) {
  const made = await printSheets(sheets, fonts);
  if (!("pdf" in made)) throw new Error(`the fonts lack ${made.lacks.join(" ")}`);
  return readPdf(made.pdf);
}

/** A sheet of so many entries. */
function long(count: number): Sheet {
  const entries = Array.from({ length: count }, (_, index): SheetEntry => ({ ...entry, n: index + 1, text: `Entry words ${index + 1}.` }));
  return { ...sheet, sessions: sheet.sessions.map(session => ({ ...session, entries })) };
}

describe("a run sheet", () => {
  test("is A4, says on every page what it is and which page of how many, and keeps inside its margins", async () => {
    const { pages, title, language } = await printed([long(60)]);
    expect(pages.length).toBeGreaterThan(4);
    for (const [index, page] of pages.entries()) {
      expect([Math.round(page.width), Math.round(page.height)]).toEqual([595, 842]);
      expect(page.text).toContain("Tannery Wharf: Lane gate");
      expect(page.text).toContain("Run sheet 7K3-Q9M");
      expect(page.text).toContain(`page ${index + 1} of ${pages.length}`);
      expect(page.lowest).toBeLessThan(page.height - 28);
      expect(page.furthest).toBeLessThan(page.width - 28);
    }
    expect({ title, language }).toEqual({ title: "Run sheet 7K3-Q9M, Lane gate", language: "en" });
  });

  test("holds every entry once, none broken over two pages", async () => {
    const { pages } = await printed([long(60)]);
    for (let n = 1; n <= 60; n++) {
      const own = pages.filter(page => page.text.includes(`Entry words ${n}.`));
      expect(own).toHaveLength(1);
      const [, behind = ""] = own[0]?.text.split(`Entry words ${n}.`) ?? [];
      expect(behind, `entry ${n}`).toContain("Typing it again is harmless.");
    }
  });

  test("has the groups of keys, the slot, what must be seen, tries and blanks", async () => {
    const { pages } = await printed([sheet]);
    const text = pages.map(page => page.text).join(" ");
    for (const words of [
      "7 4 02 00421 OK",
      "slot 02",
      "Must be seen: one beep",
      "Refused: three short beeps; C gets out.",
      "Try: Unit 2's code",
      "Foot gate opens",
      "Asked for at the door",
      "Destroy this sheet after use.",
      "installer code",
    ])
      expect(text).toContain(words);
  });

  test("Latin, Greek and Cyrillic come out as they are, in fonts that are in the file", async () => {
    const words = "Café Möwe, Žižkov, Ξύλο Άλφα, Дверь Ёлка Ґанок";
    const { pages, fonts: used } = await printed([labelledWith(words)]);
    expect(pages[0]?.text).toContain(words);
    expect(used).toEqual(["NotoSans-Bold", "NotoSans-Regular"]);
  });

  test("what the fonts lack is said, and nothing is printed", async () => {
    expect(await printSheets([labelledWith("門 Door 🚪")], fonts)).toEqual({ lacks: ["門", "🚪"] });
    expect(await printSheets([labelledWith("שער")], fonts)).toMatchObject({ lacks: ["ש", "ע", "ר"] });
  });

  test("a label of ten thousand letters runs on over pages, and nothing of it is lost", async () => {
    const { pages } = await printed([labelledWith("x".repeat(10_000))]);
    const letters = pages.map(page => page.text.replace(/[^x]/g, "").length).reduce((sum, count) => sum + count, 0);
    expect(letters).toBeGreaterThan(60_000);
    for (const page of pages) expect(page.furthest).toBeLessThan(page.width - 28);
  });

  test.each(["<script>alert(1)</script>", "(a) \\) Tj /JavaScript", "=1+1", '"><img src=x>'])("the label %s is text", async words => {
    const made = await printSheets([labelledWith(words)], fonts);
    if (!("pdf" in made)) throw new Error("it can be printed");
    expect((await readPdf(made.pdf)).pages[0]?.text).toContain(words);
    expect(new TextDecoder("latin1").decode(made.pdf)).not.toMatch(/\/(JavaScript|JS|OpenAction|AA|Launch|URI)\b(?!\))/);
  });

  test("several sheets in one file are counted each on its own", async () => {
    const { pages } = await printed([sheet, { ...long(30), number: "AAA-AAA" }]);
    const marks = pages.map(({ text }) => /Run sheet (\S+).*page (\d+ of \d+)$/s.exec(text)?.slice(1).join(" "));
    expect(marks[0]).toMatch(/^7K3-Q9M 1 of 1$/);
    expect(marks.slice(1)).toEqual(marks.slice(1).map((_, index, all) => `AAA-AAA ${index + 1} of ${all.length}`));
  });

  test("codes are dots where they are hidden", async () => {
    const hidden = entry.keys.map(group => (group.is === "code" ? { ...group, text: "•••••" } : group));
    const sessions = sheet.sessions.map(session => ({ ...session, entries: [{ ...entry, keys: hidden }] }));
    const { pages } = await printed([{ ...sheet, sessions, tries: [], paperTries: [], codesHidden: true }]);
    const text = pages.map(page => page.text).join(" ");
    expect(text).toContain("7 4 02 ••••• OK");
    expect(text).not.toContain("00421");
  });

  test("is the same file when it is printed again on the same day", async () => {
    const [one, two] = [await printSheets([sheet], fonts), await printSheets([sheet], fonts)];
    expect(one).toEqual(two);
  });
});

describe("a paper", () => {
  const paper: Paper = {
    file: "handover",
    title: "Handover",
    site: "Tannery Wharf",
    date: "2026-11-25",
    parts: [
      { is: "heading", text: "Installed" },
      { is: "table", tick: true, head: ["Keypad", "Doors"], rows: [["Lane gate", "Foot gate"]] },
      { is: "page" },
      { is: "facts", facts: [["Lock", "strike"]] },
      { is: "caution", text: "Stand clear." },
      { is: "blanks", blanks: [{ label: "At the lock", unit: "V" }] },
      { is: "code", label: "Installer code", text: "00421" },
      { is: "way", door: "Foot gate", keys: entry.keys, says: ["Opens now."] },
      { is: "list", items: ["One", "Two"] },
      { is: "signatures", names: ["Signed"] },
    ],
  };

  test("begins a page where it is told to, and has every part", async () => {
    const made = await printPapers([paper], fonts);
    if (!("pdf" in made)) throw new Error("it can be printed");
    const { pages, title } = await readPdf(made.pdf);
    expect(title).toBe("Handover, Tannery Wharf");
    expect(pages.map(({ text }) => /page \d of \d/.exec(text)?.[0])).toEqual(["page 1 of 2", "page 2 of 2"]);
    expect(pages[0]?.text).toContain("Keypad Doors Lane gate Foot gate");
    for (const words of ["Lock strike", "Stand clear.", "At the lock V", "0 0 4 2 1", "Opens now.", "One", "Two", "Signed"])
      expect(pages[1]?.text).toContain(words);
  });
});

describe.each(sampleSites().map(site => ({ name: site.label ?? "", site })))("$name", ({ site }) => {
  test.each(papers)("$name: every code is dots where codes are hidden", async kind => {
    const made = await printPapers(kind.make(site, { today: "2026-11-25", hideCodes: true }), fonts);
    if (!("pdf" in made)) throw new Error("it can be printed");
    const { pages, title } = await readPdf(made.pdf);
    const text = [title, ...pages.map(page => page.text)].join("\n");
    expect(text).toContain(site.label);
    expect(standing(text, codesOf(site))).toEqual([]);
  });

  test("a slip and an envelope hold their codes where they are not hidden", async () => {
    for (const kind of papers.filter(({ name }) => name === "slips" || name === "envelope")) {
      const made = await printPapers(kind.make(site, { today: "2026-11-25", hideCodes: false }).slice(0, 1), fonts);
      if (!("pdf" in made)) throw new Error("it can be printed");
      const text = (await readPdf(made.pdf)).pages.map(page => page.text).join("\n");
      expect(standing(text, codesOf(site)).length, kind.name).toBeGreaterThanOrEqual(1);
    }
  });
});
