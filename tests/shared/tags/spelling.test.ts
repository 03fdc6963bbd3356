import fc from "fast-check";
import { expect, test } from "vitest";
import { markedTag, readTag, spellings } from "../../../shared/tags/spelling.ts";

test.each([
  ["8061262", "8061262"],
  ["0008061262", "8061262"],
  ["123,00334", "8061262"],
  ["0123,334", "8061262"],
  ["0x7B014E", "8061262"],
  ["0X007b014e", "8061262"],
  ["0", "0"],
  ["0x0", "0"],
  ["0,0", "0"],
])("%s is the tag %s", (text, tag) => {
  expect(readTag(text)).toEqual({ tag });
});

// Published pairs of the open 26-bit format and of printed 40-bit tags: facility and number, decimal, hexadecimal.
// Sources: unit tests of jessety/wiegand-encoder (public, MIT) for the 24-bit rows; a supplier page (unnamed) for the 40-bit rows.
test.each([
  ["255,65535", "16777215", "0xFFFFFF"],
  ["090,00324", "5898564", "0x5A0144"],
  ["091,01227", "5965003", "0x5B04CB"],
  ["014,00711", "918215", "0x0E02C7"],
  ["007,32490", "491242", "0x077EEA"],
  ["00623,27706", "0040856634", "0x26F6C3A"],
  ["00066,15381", "0004340757", "0x423C15"],
])("%s, %s and %s are one tag", (pair, decimal, hex) => {
  const read = readTag(pair);
  expect(readTag(decimal)).toEqual(read);
  expect(readTag(hex)).toEqual(read);
});

test("40 bits in full: the hexadecimal and the decimal of one printed tag", () => {
  expect(readTag("0x01026F6C3A", 40)).toEqual({ tag: "4335823930" });
  expect(readTag("0x4B00423C15", 40)).toEqual({ tag: "322126887957" });
});

test.each([
  ["16777216", 24, "too-many-bits"],
  ["256,00000", 24, "too-many-bits"],
  ["0x1000000", 24, "too-many-bits"],
  ["4294967296", 32, "too-many-bits"],
  ["72057594037927936", 56, "too-many-bits"],
  [`1${"0".repeat(5000)}`, 56, "too-many-bits"],
  ["123,65536", 24, "number-range"],
  ["0x", 24, "not-a-tag"],
  [",5", 24, "not-a-tag"],
  ["5,", 24, "not-a-tag"],
  ["7B014E", 24, "not-a-tag"],
  ["", 24, "not-a-tag"],
  ["1,2,3", 24, "not-a-tag"],
])("%.20s with %d bits: %s", (text, bits, problem) => {
  expect(readTag(text, bits)).toEqual({ problem });
});

test("the largest tags of 24, 32 and 56 bits", () => {
  expect(readTag("16777215", 24)).toEqual({ tag: "16777215" });
  expect(readTag("65535,65535", 32)).toEqual({ tag: "4294967295" });
  expect(readTag("0xFFFFFFFFFFFFFF", 56)).toEqual({ tag: "72057594037927935" });
});

test("every value up to 56 bits reads back from each of its spellings", () => {
  fc.assert(
    fc.property(fc.bigInt(0n, (1n << 56n) - 1n), value => {
      const tag = value.toString();
      const all = spellings(tag);
      expect(all && [readTag(all.decimal), readTag(all.pair), readTag(all.hex)]).toEqual([{ tag }, { tag }, { tag }]);
    }),
  );
});

test("a tag without a number has no spellings but its mark", () => {
  expect(markedTag("red dot")).toBe('"red dot"');
  expect(spellings('"red dot"')).toBeUndefined();
});
