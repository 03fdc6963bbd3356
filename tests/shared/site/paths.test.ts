import { describe, expect, test } from "vitest";
import {
  baseName,
  fittedCompanion,
  isFittedRecord,
  isMullion,
  normalPath,
  relativePath,
  resolvePath,
  siteOfRecord,
} from "../../../shared/site/paths.ts";

describe("a path is relative to the file that says it", () => {
  test.each([
    ["/sites/a/wharf.mullion", "models/dunlin-3.mullion", "/sites/a/models/dunlin-3.mullion"],
    ["/sites/a/wharf.mullion", "../models/dunlin-3.mullion", "/sites/models/dunlin-3.mullion"],
    ["/sites/a/wharf.mullion", "./x//y.mullion", "/sites/a/x/y.mullion"],
    ["/wharf.mullion", "../../x.mullion", "/x.mullion"],
    ["/sites/a/wharf.mullion", "/models/x.mullion", "/models/x.mullion"],
    ["C:/sites/wharf.mullion", "../models/x.mullion", "C:/models/x.mullion"],
    ["C:/sites/wharf.mullion", "D:/models/x.mullion", "D:/models/x.mullion"],
    ["//server/share/wharf.mullion", "../../x.mullion", "//server/x.mullion"],
    ["sites/wharf.mullion", "../models/x.mullion", "models/x.mullion"],
    ["wharf.mullion", "../x.mullion", "../x.mullion"],
    ["file:///sites/a/wharf.mullion", "../models/x.mullion", "file:///sites/models/x.mullion"],
    ["file:///c%3A/sites/wharf.mullion", "../models/x.mullion", "file:///c%3A/models/x.mullion"],
    ["vscode-vfs://github/someone/wharf/a/wharf.mullion", "../x.mullion", "vscode-vfs://github/someone/wharf/x.mullion"],
    ["untitled:Untitled-1", "x.mullion", "x.mullion"],
    ["file:///sites/wharf.mullion", "/models/x.mullion", "file:///models/x.mullion"],
    ["/sites/wharf.mullion", "file:///models/../x.mullion", "file:///x.mullion"],
  ])("%s uses %s: %s", (from, written, file) => {
    expect(resolvePath(from, written)).toBe(file);
  });

  test.each([
    ["file:///a/wharf.mullion", "Büro (neu)/x y#1.mullion", "file:///a/B%C3%BCro%20%28neu%29/x%20y%231.mullion"],
    ["file:///a/wharf.mullion", "100%.mullion", "file:///a/100%25.mullion"],
    ["/a/wharf.mullion", "Büro (neu)/x y#1.mullion", "/a/Büro (neu)/x y#1.mullion"],
  ])("in a URI it is encoded as editors do: %s uses %s", (from, written, file) => {
    expect(resolvePath(from, written)).toBe(file);
  });

  test("half of a character that needs two is replaced, not fatal", () => {
    expect(resolvePath("file:///a/wharf.mullion", "x\ud83d.mullion")).toBe("file:///a/x%EF%BF%BD.mullion");
  });
});

test("the fitted record that stands beside a file", () => {
  expect(fittedCompanion("/a/tannery-wharf.mullion")).toBe("/a/tannery-wharf.fitted.mullion");
  expect(fittedCompanion("/a/tannery-wharf.fitted.mullion")).toBeUndefined();
  expect(fittedCompanion("/a/readme.md")).toBeUndefined();
});

test("what a file is by its name, plain or sealed", () => {
  const files = [
    "/a/yard.mullion",
    "/a/yard.mullion.age",
    "/a/yard.fitted.mullion",
    "/a/yard.fitted.mullion.age",
    "/a/yard.age",
    "/a/mullion",
  ];
  expect(files.filter(isMullion)).toEqual(files.slice(0, 4));
  expect(files.filter(isFittedRecord)).toEqual(files.slice(2, 4));
  expect(files.map(siteOfRecord)).toEqual([undefined, undefined, "/a/yard.mullion", "/a/yard.mullion", undefined, undefined]);
});

test("what a use has to say to mean a file", () => {
  expect(relativePath("/a/b/wharf.mullion", "/a/models/x.mullion")).toBe("../models/x.mullion");
  expect(relativePath("/a/wharf.mullion", "/a/x.mullion")).toBe("x.mullion");
  expect(relativePath("file:///a/wharf.mullion", "file:///a/B%C3%BCro/x.mullion")).toBe("Büro/x.mullion");
  expect(relativePath("C:/a/wharf.mullion", "D:/x.mullion")).toBe("D:/x.mullion");
});

test("there and back: a relative path resolves to the file that it was made for", () => {
  const files = ["/a/b/c.mullion", "/a/x.mullion", "/y.mullion", "/a/b/d/e.mullion"];
  for (const from of files) for (const to of files) expect(resolvePath(from, relativePath(from, to))).toBe(to);
});

test("the last part of a path, for words", () => {
  expect(baseName("/a/b.mullion")).toBe("b.mullion");
  expect(baseName("file:///a/B%C3%BCro.mullion")).toBe("Büro.mullion");
  expect(normalPath("/a/./b/../c.mullion")).toBe("/a/c.mullion");
});
