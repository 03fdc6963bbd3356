import { describe, expect, test } from "vitest";
import type { FileId } from "../../../shared/finding.ts";
import { plainAfter, splitSite } from "../../../shared/sealed/split.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { fixture, mullion, sourceIn } from "../../support/fixture.ts";

function split(text: string | ReadonlyMap<FileId, string>, to = "/people.mullion.age") {
  const files = typeof text === "string" ? fixture(text).files : text;
  const [root = ""] = files.keys();
  const site = loadSite(root, file => sourceIn(files, file));
  const result = splitSite(site, to);
  if ("not" in result) return result;
  return { plain: Object.fromEntries(plainAfter(site, result)), sealed: Object.fromEntries(result.sealed), gone: result.gone };
}

test("holders go with the comments that are theirs; the keypads' file names the sealed one and is otherwise as it was", () => {
  const { plain, sealed, gone } = split(mullion`
    //- main.mullion
    // The yard, spring.
    use "models.mullion" // all of them
    site "Reed Yard"

    // Moved in last week.
    // Has two bicycles.
    holder u1 "Unit 1"
      code 4829 // told by telephone
      tag 8061261

    // Everybody else.

    holder u2 "Unit 2" code 5590 holder own "Ours" code gate 6044

    keypad gate "Gate" : tiny { // by the lane
      installer code own.gate
      relay 1 "Gate" { 1 u1 2 u2 }
    }
    //- models.mullion
    model tiny "Tiny" { slots 1..3 per relay }
  `) as { plain: Record<string, string>; sealed: Record<string, string>; gone: readonly string[] };
  expect(plain["/main.mullion"]).toBe(
    [
      "// The yard, spring.",
      'use "models.mullion" // all of them',
      'use "people.mullion.age"',
      'site "Reed Yard"',
      "",
      "// Everybody else.",
      "",
      'keypad gate "Gate" : tiny { // by the lane',
      "  installer code own.gate",
      '  relay 1 "Gate" { 1 u1 2 u2 }',
      "}",
    ].join("\n"),
  );
  expect(sealed).toEqual({
    "/people.mullion.age": [
      "// Moved in last week.",
      "// Has two bicycles.",
      'holder u1 "Unit 1"',
      "  code 4829 // told by telephone",
      "  tag 8061261",
      "",
      'holder u2 "Unit 2" code 5590',
      "",
      'holder own "Ours" code gate 6044',
      "",
    ].join("\n"),
  });
  expect(gone).toEqual([]);
});

test("an installer code at its keypad gets a holder, and a record goes as it is", () => {
  const files = new Map([
    [
      "/main.mullion",
      '\ufeffsite "Reed Yard"\r\n\r\nkeypad code "Gate" : tiny {\r\n  installer code 6044 // old\r\n  relay 1 no codes\r\n}\r\nkeypad b "B" : tiny { installer code 7103 relay 1 no codes }\r\n',
    ],
    ["/main.fitted.mullion", "// typed by the yard\r\nfitted b unknown\r\n"],
  ]);
  expect(split(files, "/keys/people.mullion.age")).toEqual({
    plain: {
      "/main.mullion":
        '\ufeffuse "keys/people.mullion.age"\r\n\r\nsite "Reed Yard"\r\n\r\nkeypad code "Gate" : tiny {\r\n  installer code firm-codes.code-2 // old\r\n  relay 1 no codes\r\n}\r\nkeypad b "B" : tiny { installer code firm-codes.b relay 1 no codes }\r\n',
    },
    sealed: {
      "/keys/people.mullion.age": 'holder firm-codes "Installer codes"\n  code code-2 6044\n  code b 7103\n',
      "/main.fitted.mullion.age": "// typed by the yard\r\nfitted b unknown\r\n",
    },
    gone: ["/main.fitted.mullion"],
  });
});

test("records of the site's file and the record beside it go into one sealed file, and none is lost", () => {
  const files = new Map([
    ["/main.mullion", 'use "more.mullion"\nfitted a unknown\nkeypad a "A" : m {}\n\nfitted b 2026-11-20 {\n}\n'],
    ["/main.fitted.mullion", "\ufeff// typed by the yard\nfitted c unknown"],
    ["/more.mullion", "fitted d unknown\n"],
  ]);
  expect(split(files)).toEqual({
    plain: { "/main.mullion": 'use "more.mullion"\nkeypad a "A" : m {}\n\n', "/more.mullion": "" },
    sealed: {
      "/main.fitted.mullion.age": [
        "fitted a unknown\n",
        "fitted b 2026-11-20 {\n}\n",
        "// typed by the yard\nfitted c unknown",
        "fitted d unknown\n",
      ].join("\n"),
    },
    gone: ["/main.fitted.mullion"],
  });
});

test("holders of several files go into one, and each file that had some names it by a path of its own", () => {
  const { plain } = split(mullion`
    //- main.mullion
    use "parts/north.mullion"
    use "parts/south.mullion"
    //- parts/north.mullion
    holder n1 "North 1" code 4829
    //- parts/south.mullion
    // South.

    holder s1 "South 1" code 5590
  `) as { plain: Record<string, string> };
  expect(plain).toEqual({
    "/main.mullion": 'use "parts/north.mullion"\nuse "parts/south.mullion"',
    "/parts/north.mullion": 'use "../people.mullion.age"\n\n',
    "/parts/south.mullion": 'use "../people.mullion.age"\n\n// South.\n\n',
  });
});

describe("is refused", () => {
  test.each([
    ["where a text cannot be read", 'holder u1 "Unit 1" cod 4829', "its text cannot be read everywhere; mullion check says where"],
    ["where there is nothing to take out", 'site "Reed Yard"', "there is no holder, no installer code and no record in plain text"],
    [
      "where a sealed file is shut",
      '//- main.mullion\nuse "people.mullion.age"\n//- people.mullion.age',
      "a file of the site is sealed and was not opened",
    ],
    ["for a record", "//- main.fitted.mullion\nfitted gate unknown", "it is a record; name the site's file"],
  ])("%s", (_what, text, not) => {
    expect(split(text)).toEqual({ not });
  });
});
