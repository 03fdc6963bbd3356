/** The line of a finding on a terminal: carets stand under the place whatever the line is made of, and no code is shown. */
import stringWidth from "string-width";
import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { excerptOf } from "../../../server/cli/findings/excerpt.ts";
import { secretsOf } from "../../../server/cli/findings/secrets.ts";
import { linesOf } from "../../../server/lines.ts";

/** The excerpt of the first place of `what` in `text`. */
async function shown(text: string, what: string, hidden = (_offset: number) => false): Promise<{ line: string; carets: string }> {
  const start = text.indexOf(what);
  const { line, carets } = await excerptOf(text, linesOf(text), { start, end: start + what.length }, hidden);
  return { line, carets };
}

/** Columns before the carets and under them, as a terminal counts. */
async function columns(text: string, what: string): Promise<readonly [number, number]> {
  const { line, carets } = await shown(text, what);
  const before = carets.length - carets.trimStart().length;
  expect(stringWidth(line)).toBeGreaterThanOrEqual(before);
  return [before, carets.trimStart().length];
}

describe("carets", () => {
  test.each([
    ["plain", "  01 u2", 5, 2],
    ["after a tab", "\tx u2", 6, 2],
    ["after a tab in mid-column", "ab\tu2", 4, 2],
    ["after wide letters", 'holder "単位" u2', 14, 2],
    ["after a combining mark", 'holder "Café" u2', 14, 2],
    ["after an emoji of several parts", 'holder "👩🏽‍🔧" u2', 12, 2],
    ["after a flag", 'holder "🇳🇴" u2', 12, 2],
    ["after what steers the direction", "a\u202eb u2", 11, 2],
    ["after an escape", "a\u001b[31m u2", 14, 2],
    ["after a byte order mark at the beginning", "\ufeffab u2", 3, 2],
    ["after half of a surrogate pair", "a\ud83d u2", 10, 2],
  ])("%s", async (_what, text, before, under) => {
    expect(await columns(text, "u2")).toEqual([before, under]);
  });

  test("under wide letters they are two columns each", async () => {
    expect(await shown('holder u1 "単位"', "単位")).toEqual({ line: 'holder u1 "単位"', carets: "           ^^^^" });
  });

  test("a place inside a letter of several parts is under the whole letter", async () => {
    expect(await shown('"e\u0301x"', "\u0301")).toEqual({ line: '"e\u0301x"', carets: " ^" });
  });

  test("an empty place, and one at the end of the text, has one", async () => {
    const at = async (text: string, offset: number) =>
      (await excerptOf(text, linesOf(text), { start: offset, end: offset }, () => false)).carets;
    expect(await at("abc\ndef", 1)).toBe(" ^");
    expect(await at("abc\ndef", 3)).toBe("   ^");
    expect(await at("abc\ndef", 7)).toBe("   ^");
    expect(await at("", 0)).toBe("^");
  });

  test("a place of several lines is under the first", async () => {
    expect(await shown("  ab {\n  x\n}", "ab {\n  x\n}")).toEqual({ line: "  ab {", carets: "  ^^^^" });
  });

  test("a very long line is cut around the place", async () => {
    const { line, carets } = await shown(`${"x".repeat(10_000_000)} u2 ${"y".repeat(1000)}`, "u2");
    expect(line.length).toBeLessThan(170);
    expect(line.slice(carets.indexOf("^"), carets.length)).toBe("u2");
    expect(line).toMatch(/^…x+ u2 y+…$/);
  });
});

describe("lines", () => {
  test.each([
    ["LF", "a\nb\n"],
    ["CR LF", "a\r\nb\r\n"],
    ["CR", "a\rb\r"],
    ["mixed", "a\r\nb\n"],
  ])("end with %s", (_what, text) => {
    const lines = linesOf(text);
    expect(lines.count).toBe(3);
    expect([1, 2, 3].map(line => lines.span(line)).map(({ start, end }) => text.slice(start, end))).toEqual(["a", "b", ""]);
    expect(lines.at(text.indexOf("b"))).toEqual({ line: 2, column: 1 });
    expect(lines.at(text.length)).toEqual({ line: 3, column: 1 });
  });
});

describe("codes are dots", () => {
  const hide = (text: string, what: string) => shown(text, what, secretsOf({ file: "x.mullion", text, ...parse(text) }));

  test.each([
    ["a holder's", 'holder u1 "Unit 1" code 48291', 'holder u1 "Unit 1" code •••••'],
    ["a named one", 'holder u1 "Unit 12" code yard 0042 until 2027-03-31', 'holder u1 "Unit 12" code yard •••• until 2027-03-31'],
    ["a short one", 'holder u1 "Unit 1" code 12', 'holder u1 "Unit 1" code ••'],
    ["the installer's", 'keypad g "G" : m { installer code 60441 }', 'keypad g "G" : m { installer code ••••• }'],
    [
      "a fitted one",
      "fitted g 2026-11-20 { relay 1 { 01 code 48291 or tag 8061261 } }",
      "fitted g 2026-11-20 { relay 1 { 01 code ••••• or tag 8061261 } }",
    ],
    ["one where none belongs", 'holder u1 "Unit 1" 48291', 'holder u1 "Unit 1" •••••'],
    ["one in full-width digits, but not a label's", 'holder u1 "２０１" code ４８２９１', 'holder u1 "２０１" code •••••'],
    ["one in the digits of another script", 'holder u1 "Unit 1" code ٤٨٢٩١', 'holder u1 "Unit 1" code •••••'],
    ["one in a comment, but no date", 'holder u1 "Unit 1" // 48291 since 2026-01-02', 'holder u1 "Unit 1" // ••••• since 2026-01-02'],
  ])("%s", async (_what, text, line) => {
    expect((await hide(text, text.slice(0, 3))).line).toBe(line);
  });

  test.each(["  relay 1 release 60s", "  tag van 0x7B014E", "  tag bike 123,00334", '  tag 8061261 "blue fob"', "    1000 u1"])(
    "not everything else with digits: %s",
    async line => {
      const text = line.includes("tag") ? `holder u1 "Unit 1"\n${line}` : `keypad g "G" : m {\n  relay 1 {\n${line}\n  }\n}`;
      expect((await hide(text, line)).line).toBe(line);
    },
  );
});
