/** The way from the file down to the cursor `$0`. */
import { expect, it } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { pathTo } from "../../grammar/path.ts";

function pathIn(fixture: string): string[] {
  const offset = fixture.indexOf("$0");
  const text = fixture.replace("$0", "");
  return pathTo(parse(text).tree, offset).map(node => ("kind" in node ? String(node.kind) : text.slice(node.start, node.end)));
}

const keypad = (entry: string) => `holder u1 "A"\nkeypad g "x" : m {\n  relay 1 "a" release 5s {\n    ${entry}\n  }\n}\n`;

it("leads to the words of an entry", () => {
  expect(pathIn(keypad("0$01 u1.tag"))).toEqual(["file", "keypad", "relay", "entry", "01"]);
  expect(pathIn(keypad("01 u$01.tag"))).toEqual(["file", "keypad", "relay", "entry", "u1.tag", "u1"]);
  expect(pathIn(keypad("01 u1.$0tag"))).toEqual(["file", "keypad", "relay", "entry", "u1.tag", "tag"]);
  expect(pathIn(keypad("01 u1 or u1.tag$0"))).toEqual(["file", "keypad", "relay", "entry", "or u1.tag", "u1.tag", "tag"]);
});

it("holds the offset behind a word", () => {
  expect(pathIn(keypad("01 u1$0.tag"))).toEqual(["file", "keypad", "relay", "entry", "u1.tag", "u1"]);
  expect(pathIn(keypad("01 u1.$0"))).toEqual(["file", "keypad", "relay", "entry", "u1."]);
  expect(pathIn(keypad("01 $0"))).toEqual(["file", "keypad", "relay"]);
});

it("leads into templates and through what has no place of its own", () => {
  expect(pathIn('model m "x" {\n  put code 7 {sl$0ot:2} OK\n}')).toEqual(["file", "model", "operation", "field", "slot"]);
  expect(pathIn('fitted g 2026-01-01 {\n  relay 1 {\n    01 tag 12$03 "blue"\n  }\n}')).toEqual([
    "file",
    "fitted",
    "fitted-relay",
    "fitted-entry",
    "123",
  ]);
  expect(pathIn('supply s "x" 12 V 3 A {\n  feeds "a", keypad g$0\n}')).toEqual(["file", "supply", "feeds", "g"]);
});

it("is the file alone where nothing stands", () => {
  expect(pathIn("$0")).toEqual(["file"]);
  expect(pathIn('site "x"\n\n$0\n')).toEqual(["file"]);
});

it("leads to comments", () => {
  expect(pathIn("// no$0te")).toEqual(["file", "// note"]);
});
