import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import type { FileId, SourceFile } from "../../../shared/finding.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { rootsOf } from "../../../shared/site/roots.ts";
import { mullion, siteOf } from "../../support/fixture.ts";

function sources(texts: Readonly<Record<FileId, string>>): ReadonlyMap<FileId, SourceFile> {
  return new Map(Object.entries(texts).map(([file, text]) => [file, { file, text, ...parse(text) }]));
}

function load(texts: Readonly<Record<FileId, string>>, root: FileId) {
  const files = sources(texts);
  const asked: FileId[] = [];
  const site = loadSite(root, file => {
    asked.push(file);
    return files.get(file);
  });
  return { site, asked, files: site.files.map(source => source.file) };
}

describe("the files of a site", () => {
  test("root first, its record, then what it uses in the order met, each once", () => {
    const { files, asked } = load(
      {
        "/a.mullion": 'use "m/x.mullion" use "h.mullion" site "A"',
        "/a.fitted.mullion": "fitted gate unknown",
        "/h.mullion": 'use "m/x.mullion" use "m/y.mullion"',
        "/m/x.mullion": "",
        "/m/y.mullion": 'use "../h.mullion"',
        "/other.mullion": "",
      },
      "/a.mullion",
    );
    expect(files).toEqual(["/a.mullion", "/a.fitted.mullion", "/m/x.mullion", "/h.mullion", "/m/y.mullion"]);
    expect(new Set(asked).size).toBe(asked.length);
  });

  test("what a used file declares is seen through others", () => {
    const site = siteOf(mullion`
      //- main.mullion
      use "one.mullion"
      keypad gate "Gate" : tiny {
        relay 1 { 1 u1 }
      }
      //- one.mullion
      use "two.mullion"
      //- two.mullion
      holder u1 "Unit 1" code 4829
    `);
    expect(site.keypads.get("gate")?.placements[0]?.held[0]?.credential?.path).toBe("u1");
  });

  test("a root that cannot be opened is a site without files", () => {
    expect(load({}, "/a.mullion").files).toEqual([]);
  });

  test("a chain of 20,000 files is no matter", () => {
    const texts: Record<FileId, string> = {};
    for (let i = 0; i < 20_000; i++) texts[`/f${i}.mullion`] = `use "f${i + 1}.mullion"`;
    expect(load(texts, "/f0.mullion").files).toHaveLength(20_000);
  });

  test("a use that is missing says what would be there", () => {
    const { site } = load({ "/a.mullion": 'use "models/x" use "nowhere.mullion"', "/models/x.mullion": "" }, "/a.mullion");
    expect(site.uses.map(({ found, instead }) => ({ found, instead }))).toEqual([
      { found: false, instead: "models/x.mullion" },
      { found: false, instead: undefined },
    ]);
  });
});

describe("the roots of a folder", () => {
  const rootsIn = (texts: Readonly<Record<FileId, string>>) => rootsOf(sources(texts).values());

  test("one for each site, and the files that no site uses", () => {
    const roots = rootsIn({
      "/a.mullion": 'use "m/x.mullion" site "A"',
      "/a.fitted.mullion": "",
      "/b.mullion": 'site "B" use "m/x.mullion"',
      "/m/x.mullion": "",
      "/m/y.mullion": "",
    });
    expect(roots).toEqual(["/a.mullion", "/b.mullion", "/m/y.mullion"]);
  });

  test("of files without a site, those at the top", () => {
    expect(rootsIn({ "/h.mullion": "", "/k.mullion": 'use "h.mullion"', "/k.fitted.mullion": "" })).toEqual(["/k.mullion"]);
  });

  test("files that use each other have one root, and so has a file that uses itself", () => {
    expect(rootsIn({ "/x.mullion": 'use "y.mullion"', "/y.mullion": 'use "x.mullion"', "/z.mullion": 'use "z.mullion"' })).toEqual([
      "/x.mullion",
      "/z.mullion",
    ]);
  });

  test("a record without its site is on its own", () => {
    expect(rootsIn({ "/a.fitted.mullion": "" })).toEqual(["/a.fitted.mullion"]);
  });
});
