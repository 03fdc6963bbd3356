/** Every regular expression of the language configuration, and what closes itself. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";

const configuration = JSON.parse(readFileSync(new URL("../../syntaxes/language-configuration.json", import.meta.url), "utf8"));
const { pattern, flags } = configuration.wordPattern;

describe("a word", () => {
  const words = (line: string): string[] => line.match(new RegExp(pattern, `g${flags}`)) ?? [];

  test.each([
    ["all-relay code mgr", ["all-relay", "code", "mgr"]],
    ["keypad gate : dunlin-3 {", ["keypad", "gate", "dunlin-3"]],
    ["until 2027-03-31", ["until", "2027-03-31"]],
    ["tag bike 123,00334", ["tag", "bike", "123,00334"]],
    ["tag van 0x7B014F", ["tag", "van", "0x7B014F"]],
    ["10 u1.tag", ["10", "u1", "tag"]],
    ["relay 1+2 release 5s", ["relay", "1", "2", "release", "5", "s"]],
    ["slots 00..59", ["slots", "00", "59"]],
    ['holder u1 "Мастерская №1, Ågård"', ["holder", "u1", "Мастерская", "1", "Ågård"]],
    ['* # { } [ ] "', []],
  ])("%s", (line, expected) => expect(words(line)).toEqual(expected));
});

describe("the line after this one stands deeper", () => {
  const deeper = new RegExp(configuration.indentationRules.increaseIndentPattern);

  test.each([
    'site "Tannery Wharf" {',
    'keypad gate "Lane gate" : dunlin-3 { // at the lane',
    'relay 1 "Foot // gate" release 5s {',
    'site "a \\" quoted { wharf" {',
    "{",
    "  factory {",
  ])("%s", line => expect(line).toMatch(deeper));

  test.each(["", "  put code 7 {relay} {slot} {code} OK", 'site "{"', "// keypad {", 'note "open {', "}", "relay 3 spare }", "site {}"])(
    "but not: %s",
    line => expect(line).not.toMatch(deeper),
  );

  test("a long line is decided at once", () => {
    const started = performance.now();
    expect(`${'"a\\" '.repeat(5000)}{x`).not.toMatch(deeper);
    expect(`${"{a} / ".repeat(5000)}x`).not.toMatch(deeper);
    expect(performance.now() - started).toBeLessThan(1000);
  });
});

describe("a line that stands less deep", () => {
  const shallower = new RegExp(configuration.indentationRules.decreaseIndentPattern);
  test.each(["}", "  }", "\t} // done"])("%s", line => expect(line).toMatch(shallower));
  test.each(["", "relay 3 spare }", "{code}"])("but not: %s", line => expect(line).not.toMatch(shallower));
});

describe("a holder without facts is followed by them", () => {
  const rules = configuration.onEnterRules as { beforeText: string; action: unknown }[];
  const holder = new RegExp(rules[0]?.beforeText ?? "");

  test("and that is the only rule for the enter key", () => {
    expect(rules.map(rule => rule.action)).toEqual([{ indent: "indent" }]);
  });
  test.each(['holder u1 "Unit 1, pottery"', '  holder u1 "The \\"loft\\"" ', 'holder mgr "Manager" // on site'])("%s", line =>
    expect(line).toMatch(holder),
  );
  test.each(["holder u1", 'holder u1 "Unit 1', 'holder u1 "Unit 1" code 48291', 'keypad k "K"'])("but not: %s", line =>
    expect(line).not.toMatch(holder),
  );
});

test("`#` and `*` are keys: nothing closes them, nothing comments with them", () => {
  const opened = [...configuration.autoClosingPairs.map((pair: { open: string }) => pair.open), ...configuration.surroundingPairs.flat()];
  expect(new Set(opened)).toEqual(new Set(["{", "}", "[", "]", '"']));
  expect(configuration.comments).toEqual({ lineComment: "//" });
});

test("there is no regular expression that is not tested here", () => {
  const found: string[] = [];
  const walk = (value: unknown, path: string): void => {
    if (typeof value === "object" && value !== null) for (const [key, inner] of Object.entries(value)) walk(inner, `${path}/${key}`);
    else if (/(?:pattern|text)$/i.test(path)) found.push(path);
  };
  walk(configuration, "");
  expect(found).toEqual([
    "/wordPattern/pattern",
    "/indentationRules/increaseIndentPattern",
    "/indentationRules/decreaseIndentPattern",
    "/onEnterRules/0/beforeText",
  ]);
});
