/** The formatter: one canonical layout, no comment lost, nothing changed in meaning. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { format } from "../../grammar/format.ts";

const folder = new URL("fixtures/", import.meta.url);

function checkFormat(before: string, after: string): void {
  expect(format(before)).toBe(after);
  expect(format(after)).toBe(after);
}

describe("the example texts are in their canonical layout", () => {
  for (const name of readdirSync(folder)) {
    it(name, () => {
      const text = readFileSync(new URL(name, folder), "utf8");
      expect(format(text)).toBe(text);
    });
  }
});

describe("format", () => {
  it("leaves a text with syntax problems alone", () => {
    expect(format("holder u1 {")).toBeUndefined();
    expect(format("<<<<<<< ours\n=======\n>>>>>>> theirs\n")).toBeUndefined();
  });

  it("leaves nothing of an empty text, and ends any other with one line end", () => {
    checkFormat("", "");
    checkFormat("\n \n", "");
    checkFormat("// nothing yet", "// nothing yet\n");
  });

  it("sets a holder with one fact on one line, with more each fact on its own", () => {
    checkFormat(
      'holder u1 "A"\n   code 123\nholder u2 "B" code 1 tag 2\n until 2027-01-01',
      'holder u1 "A" code 123\nholder u2 "B"\n  code 1\n  tag 2 until 2027-01-01\n',
    );
  });

  it("sets entries one a line in the order written, numbers as written", () => {
    checkFormat(
      'keypad g "x":m{relay 1+2 "a" release 5s{2 u1 01 u2 . tag or u2}relay 3 spare}',
      'keypad g "x" : m {\n  relay 1+2 "a" release 5s {\n    2 u1\n    01 u2.tag or u2\n  }\n  relay 3 spare\n}\n',
    );
  });

  it("keeps one blank line where there were more, and none at the beginning of a block", () => {
    checkFormat(
      '\n\nsite "a"\n\n\n\nkeypad g "x" : m {\n\n  relay 1 {\n\n 01 u1\n\n\n 02 u2\n\n }\n}\n\n\n',
      'site "a"\n\nkeypad g "x" : m {\n  relay 1 {\n    01 u1\n\n    02 u2\n  }\n}\n',
    );
  });

  it("keeps line ends and a byte order mark", () => {
    checkFormat('\ufeffsite   "a"\r\nuse "b"\r\n', '\ufeffsite "a"\r\nuse "b"\r\n');
    checkFormat('site   "a"\ruse "b"', 'site "a"\ruse "b"\r');
  });

  it("keeps comments with the line that they belong to", () => {
    checkFormat(
      '// top\n\nkeypad g "x" : m { // c1  \n // c2\n relay 1 { // c3\n01 u1 // c4\n//c5\n} // c6\n}\n  // end',
      '// top\n\nkeypad g "x" : m { // c1\n  // c2\n  relay 1 { // c3\n    01 u1 // c4\n    //c5\n  } // c6\n}\n// end\n',
    );
  });

  it("keeps a comment inside a fact where it is", () => {
    checkFormat('holder u1 // potter\n"A" // again\n// alone\n code 1\n', 'holder u1 // potter\n    "A" // again\n  // alone\n  code 1\n');
  });

  it("neither splits nor joins a line that has an allowance", () => {
    checkFormat('holder u1 "A" code 1 tag 2 // allow weak-code: known\n', 'holder u1 "A" code 1 tag 2 // allow weak-code: known\n');
    checkFormat('holder u1 "A"\n code 1 // allow weak-code: known\n', 'holder u1 "A"\n  code 1 // allow weak-code: known\n');
    checkFormat('// allow holder-idle: known\nholder u1 "A"\n code 1\n', '// allow holder-idle: known\nholder u1 "A"\n  code 1\n');
  });

  it("never makes a beginning of an unnumbered holder's name", () => {
    checkFormat('keypad g "x" : m { relay 1 { tag u2 note } }', 'keypad g "x" : m {\n  relay 1 { tag\n    u2 note\n  }\n}\n');
  });

  it("has fixed columns in a model", () => {
    checkFormat(
      'model m "x" { release 1s .. 9s keys 0..9 * # // comment\n put code 7 { slot : 2 } [ present   tag ] shows "beep" factory { } }',
      [
        'model m "x" {',
        "  release  1s..9s",
        "  keys     0..9 * #                     // comment",
        '  put code        7 {slot:2} [present tag]            shows "beep"',
        "  factory {}",
        "}",
        "",
      ].join("\n"),
    );
  });
});
