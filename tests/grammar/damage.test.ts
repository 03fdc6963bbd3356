/** Damage stays local: whatever happens to one line, every other declaration is read as before. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "../../grammar/parse.ts";
import { meaningOf } from "./meaning.ts";

const folder = new URL("fixtures/", import.meta.url);
const all = readdirSync(folder)
  .map(name => readFileSync(new URL(name, folder), "utf8"))
  .join("\n");
const lines = all.split("\n");
const declarations = parse(all).tree.declarations;
const meanings = declarations.map(meaningOf);

/** Without its first line a holder's facts read as those of the holder above: that text is in order, and no parser can tell. */
const beginsHolder = (line: string) => line.startsWith("holder");

function checkDamage(index: number, line: string | undefined): void {
  const start = lines.slice(0, index).join("\n").length + (index > 0 ? 1 : 0);
  const end = start + (lines[index] ?? "").length;
  const next = declarations.findIndex(declaration => declaration.start >= start);
  const isHolderAbove = (position: number) => beginsHolder(lines[index] ?? "") && position === next - 1;
  const others = meanings.filter((_, position) => {
    const declaration = declarations[position];
    return declaration !== undefined && (declaration.end < start || declaration.start > end) && !isHolderAbove(position);
  });
  const damaged = [...lines.slice(0, index), ...(line === undefined ? [] : [line]), ...lines.slice(index + 1)].join("\n");
  const { tree, problems } = parse(damaged);
  const read = new Set(tree.declarations.map(meaningOf));
  expect(others.filter(other => !read.has(other))).toEqual([]);
  expect(problems.length).toBeLessThanOrEqual(3);
}

describe("one line damaged", () => {
  lines.forEach((line, index) => {
    if (line.trim() === "") return;
    it(`${index + 1} deleted: ${line.replace(/\d/g, "0")}`, () => checkDamage(index, undefined));
    it(`${index + 1} cut anywhere (at every second place): ${line.replace(/\d/g, "0")}`, () => {
      for (let length = 0; length < line.length; length += 2) checkDamage(index, line.slice(0, length));
    });
  });
});
