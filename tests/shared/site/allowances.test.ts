import { expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { allowancesOf } from "../../../shared/site/allowances.ts";

function read(text: string) {
  return allowancesOf({ file: "/a.mullion", text, ...parse(text) }).map(({ code, reason, line }) => ({
    code,
    reason,
    line: text.slice(line.start, line.end).trim(),
  }));
}

test("on a line it speaks of that line, alone on a line of the next", () => {
  expect(
    read('holder u1 "1" code 1111 // allow weak-code: for the children\n// allow holder-idle: moves in later\nholder u2 "2" code 4829\n'),
  ).toEqual([
    { code: "weak-code", reason: "for the children", line: 'holder u1 "1" code 1111 // allow weak-code: for the children' },
    { code: "holder-idle", reason: "moves in later", line: 'holder u2 "2" code 4829' },
  ]);
});

test("several above one line all speak of it, other comments between them too", () => {
  expect(
    read('// allow weak-code: x\n// a word about it\n  // allow near-codes: y\nholder u1 "1" code 1111').map(({ line }) => line),
  ).toEqual(['holder u1 "1" code 1111', 'holder u1 "1" code 1111']);
});

test("CRLF, no reason, no name, a reason with a colon", () => {
  expect(
    read("// allow weak-code: like this: so\r\n\r\n// allow weak-code:\r\n// allow weak-code\r\n// allow\r\n// allowed are all\n"),
  ).toEqual([
    { code: "weak-code", reason: "like this: so", line: "" },
    { code: "weak-code", reason: "", line: "" },
    { code: "weak-code", reason: "", line: "" },
    { code: "", reason: "", line: "" },
  ]);
});
