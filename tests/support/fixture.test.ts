import { describe, expect, test } from "vitest";
import { checkFindings, fixture, markOf, mullion, withMarks } from "./fixture.ts";

describe("a fixture", () => {
  test("loses the indent that its lines of text share, and its marks", () => {
    const { files, marks } = fixture(mullion`
      holder u1 "Unit 1"
    //^^^^^^ name-twice
           //^^ name-unknown
        code 4829   // an ordinary comment: replaces | refused
      // ^^^^ is no mark either: words follow
    `);
    expect([...files]).toEqual([
      [
        "/main.mullion",
        'holder u1 "Unit 1"\n  code 4829   // an ordinary comment: replaces | refused\n// ^^^^ is no mark either: words follow',
      ],
    ]);
    expect(marks).toEqual([
      { file: "/main.mullion", line: 0, column: 0, length: 6, code: "name-twice" },
      { file: "/main.mullion", line: 0, column: 7, length: 2, code: "name-unknown" },
    ]);
  });

  test("holds several files, and the first is the root", () => {
    const { root, files } = fixture(mullion`
      //- a.mullion
      site "A"
      //- m/x.mullion
      holder u1 "Unit 1"
    `);
    expect(root).toBe("/a.mullion");
    expect([...files.values()]).toEqual(['site "A"', 'holder u1 "Unit 1"']);
  });

  test("has a cursor, or a selection", () => {
    expect(fixture("holder $0u1").cursor).toEqual({ file: "/main.mullion", start: 7, end: 7 });
    expect(fixture("holder $0u1$0").cursor).toEqual({ file: "/main.mullion", start: 7, end: 9 });
    expect(() => fixture("$0a$0b$0")).toThrow(/one cursor/);
  });

  test("refuses a mark twice, one above all text, and tabs", () => {
    expect(() => fixture("holder\n//^^ syntax\n//^^ syntax")).toThrow(/stands twice/);
    expect(() => fixture("  //^^ syntax\nholder")).toThrow(/nothing stands above/);
    expect(() => fixture("\tholder")).toThrow(/blanks/);
  });

  test("counts columns in characters, not in halves of them", () => {
    const read = fixture('holder u1 "🜔🜔" codes');
    const text = read.files.get("/main.mullion") ?? "";
    const start = text.indexOf("codes");
    const finding = {
      file: "/main.mullion",
      start,
      end: start + 5,
      code: "syntax",
      severity: "error",
      message: "",
      related: [],
      keypads: [],
      found: 0,
    } as const;
    expect(markOf(finding, read)).toMatchObject({ column: 15, length: 5 });
  });

  test("marks a whole file", () => {
    expect(fixture('site "A"\nholder u1 "1"\n// ^file use-missing').marks).toEqual([
      { file: "/main.mullion", line: 0, column: -1, length: 0, code: "use-missing" },
    ]);
  });
});

test("what is shown can be pasted: its marks are read as they were", () => {
  const read = fixture(mullion`
    //- a.mullion
    site "A"
  //^^^^ name-twice
      //   and a comment
    //- b.mullion
    holder u1 "Unit 1"
         //^^ name-twice
             //^^^^^^ syntax
  `);
  const again = fixture(withMarks(read, read.marks));
  expect(again).toEqual(read);
});

test("the whole set is compared, both ways", () => {
  expect(() => checkFindings('holder "x"')).toThrow(/syntax/);
  expect(() => checkFindings('holder u1 "x"\n     //^^ name-twice')).toThrow(/name-twice/);
});
