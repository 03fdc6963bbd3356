/** The language as it is meant to look parses without a word of complaint. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse.ts";

const folder = new URL("fixtures/", import.meta.url);

describe("the example texts", () => {
  for (const name of readdirSync(folder)) {
    it(`${name} has no problems and survives a structured clone`, () => {
      const { tree, problems } = parse(readFileSync(new URL(name, folder), "utf8"));
      expect(problems).toEqual([]);
      expect(tree.declarations).not.toEqual([]);
      expect(structuredClone(tree)).toEqual(tree);
    });
  }
});
