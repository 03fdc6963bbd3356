/** The sheets of the samples: proved when read back from every format, and without a code where codes are hidden. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import type { SourceFile } from "../../../shared/finding.ts";
import { sameMemory } from "../../../shared/keypad/memory-equal.ts";
import { replay } from "../../../shared/keypad/replay.ts";
import { planFor } from "../../../shared/plan/start.ts";
import { csv } from "../../../shared/sheet/formats/csv.ts";
import { formats } from "../../../shared/sheet/formats/index.ts";
import { json } from "../../../shared/sheet/formats/json.ts";
import { md } from "../../../shared/sheet/formats/md.ts";
import { txt } from "../../../shared/sheet/formats/txt.ts";
import { sheetOf } from "../../../shared/sheet/sheet.ts";
import { loadSite } from "../../../shared/site/load.ts";
import type { Site } from "../../../shared/site/site.ts";
import { actsOf, fromCsv, fromJson, fromMarkdown, fromText } from "./read-back.ts";

const folder = join(import.meta.dirname, "../../../samples");
const day = "2026-11-25";

function sample(path: string): Site {
  return loadSite(path, (file): SourceFile | undefined => {
    try {
      const text = readFileSync(join(folder, file), "utf8");
      return { file, text, ...parse(text) };
    } catch {
      return undefined;
    }
  });
}

const sites = ["tannery-wharf/tannery-wharf.mullion", "curlew-court/curlew-court.mullion"].map(sample);
const keypads = sites.flatMap(site => [...site.keypads.values()].map(keypad => ({ name: `${site.label}: ${keypad.label}`, site, keypad })));

describe.each(keypads)("$name", ({ site, keypad }) => {
  const planned = (from: "fitted" | "factory") => {
    const plan = planFor(site, keypad, from);
    if ("cannot" in plan) throw new Error(plan.cannot);
    return plan;
  };
  const shown = { hideCodes: false, showInstaller: true, today: day };

  test.each([
    ["md", (text: string) => fromMarkdown(text), md],
    ["txt", fromText, txt],
    ["csv", fromCsv, csv],
    ["json", fromJson, json],
  ] as const)("read back from %s it leads to what the text wants", (_, read, format) => {
    const plan = planned("factory");
    let memory = plan.before;
    for (const session of read(format.render([sheetOf(site, keypad, plan, shown)]))) {
      const { steps, memory: after } = replay(
        plan.model,
        memory,
        session.flatMap(groups => groups.flatMap(actsOf)),
      );
      expect(steps.filter(({ taken }) => !taken)).toEqual([]);
      memory = after;
    }
    expect(sameMemory(memory, plan.target, plan.model)).toBe(true);
  });

  test("no code stands on a sheet that hides them", () => {
    const installers = [...site.keypads.values()].flatMap(({ model, installer }) => [model?.factory.installer, installer?.digits]);
    const held = [...site.holders.values()].flatMap(({ credentials }) => credentials.map(({ digits }) => digits));
    const codes = [...held, ...installers].filter(digits => digits !== undefined);
    for (const from of ["fitted", "factory"] as const)
      for (const format of formats) {
        const text = format.render([sheetOf(site, keypad, planned(from), { hideCodes: true, showInstaller: true, today: day })]);
        const standing = codes.filter(code => new RegExp(`(?<![0-9])${code}(?![0-9])`).test(text));
        expect(standing, `${format.name}, ${from}`).toEqual([]);
      }
  });
});

describe("the sheet of a keypad that it names", () => {
  const sheetFor = (id: string) => {
    const { site, keypad } = keypads.find(one => one.keypad.id === id) as (typeof keypads)[number];
    const plan = planFor(site, keypad, "factory");
    if ("cannot" in plan) throw new Error(plan.cannot);
    return sheetOf(site, keypad, plan, { hideCodes: false, showInstaller: false, today: day });
  };
  const brought = (id: string) => sheetFor(id).before.flatMap(({ kind, text }) => (kind === "tag" ? [text] : []));

  test("asks for a tag whose number is typed, since it is presented when it is tried", () => {
    expect(brought("boat")).toEqual(["Bring Unit 8, boat varnish's tag, tag 5898564, to try it at the end."]);
  });

  test("asks for no tag twice, and for none that paper does not try", () => {
    expect(brought("plant")).toHaveLength(3);
    expect(brought("loft")).toEqual([]);
  });

  test("leaves one gap for each key that is asked for at the door", () => {
    const gaps = (id: string) =>
      sheetFor(id).blanks.map(({ operation, parts }) => [
        operation,
        ...parts.flatMap(part => ("gap" in part ? [[part.gap, part.width]] : [])),
      ]);
    expect(gaps("bins")).toContainEqual(["set release", ["seconds", 1]]);
    expect(gaps("boat")).toContainEqual(["set release", ["seconds", 2]]);
    expect(gaps("boat")).toContainEqual(["put tag", ["slot", 3], ["tag", 10]]);
    expect(gaps("gate")).toContainEqual(["put code", ["relay", 1], ["slot", 2], ["code", 5]]);
    expect(gaps("door")).toContainEqual(["set release", ["relay", 1], ["seconds", 3]]);
  });

  test("tries an all-relay code at every relay that something is wired to, and at sets of them; a withdrawn one at relays alone", () => {
    const keyed = sheetFor("door")
      .tries.filter(({ keys }) => keys.some(({ text }) => text === "A"))
      .map(({ keys, opens }) => `${keys.map(({ text }) => text).join(" ")}: ${opens.join(" and ") || "nothing"}`);
    expect([...new Set(keyed)].sort()).toEqual([
      "161803 A 1 END: nothing",
      "161803 A 2 END: nothing",
      "161803 A 3 END: nothing",
      "257470 A 1 END: 1",
      "257470 A 2 END: 2",
      "257470 A 3 END: 3",
      "257470 A 5 END: 1 and 2",
      "332120 A 1 END: 1",
      "332120 A 2 END: 2",
      "332120 A 3 END: 3",
      "332120 A 5 END: 1 and 2",
    ]);
  });
});
