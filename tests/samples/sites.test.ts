/** The two sample sites: quiet but for the one finding that shows something, in the canonical layout, and what the samples are to show. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { format } from "../../grammar/format.ts";
import { parse } from "../../grammar/parse.ts";
import { findingsOf } from "../../shared/checks/run.ts";
import { placesApart } from "../../shared/codes/near.ts";
import { weakness } from "../../shared/codes/weak.ts";
import { doorSums } from "../../shared/doors/door-sum.ts";
import { supplySums } from "../../shared/doors/supply-sum.ts";
import type { FileId, SourceFile } from "../../shared/finding.ts";
import { loadSite } from "../../shared/site/load.ts";
import type { Site } from "../../shared/site/site.ts";
import { heldEverywhere } from "../../shared/site/where.ts";

const samples = fileURLToPath(new URL("../../samples/", import.meta.url));

function open(file: FileId): SourceFile | undefined {
  if (!existsSync(file)) return undefined;
  const text = readFileSync(file, "utf8");
  return { file, text, ...parse(text) };
}

const wharf = loadSite(`${samples}tannery-wharf/tannery-wharf.mullion`, open);
const court = loadSite(`${samples}curlew-court/curlew-court.mullion`, open);

function found(site: Site): readonly string[] {
  return findingsOf(site, { today: "2026-11-25" }).map(({ code, severity }) => `${severity} ${code}`);
}

describe("Tannery Wharf", () => {
  test("has one warning, the cleaner who has lapsed", () => {
    expect(found(wharf)).toEqual(["warning until-passed"]);
  });

  test("has three keypads of different models and 25 holders or more", () => {
    expect([...wharf.keypads.values()].map(keypad => keypad.model?.id)).toEqual(["dunlin-3", "whimbrel-2", "plover-1"]);
    expect(wharf.holders.size).toBeGreaterThanOrEqual(25);
  });

  test("spells tags in all three ways, and two labels are not ASCII", () => {
    const numbers = tagNumbers(wharf);
    expect(numbers.some(number => /^\d+$/.test(number))).toBe(true);
    expect(numbers.some(number => /^\d+,\d+$/.test(number))).toBe(true);
    expect(numbers.some(number => /^0x[0-9A-F]+$/.test(number))).toBe(true);
    expect([...wharf.holders.values()].filter(holder => /[^ -~]/.test(holder.label))).toHaveLength(2);
  });

  test("has a spare relay, and no secret in the file of its keypads", () => {
    expect([...wharf.keypads.values()].flatMap(keypad => keypad.relays).filter(relay => relay.spare)).toHaveLength(1);
    const text = wharf.files[0]?.text ?? "";
    for (const holder of wharf.holders.values()) {
      for (const { digits } of holder.credentials) if (digits !== undefined) expect(text.includes(digits)).toBe(false);
    }
  });
});

describe("Tannery Wharf's doors", () => {
  const doors = doorSums(wharf);
  test("are those of its relays, each with another kind of lock", () => {
    const labels = [...wharf.keypads.values()].flatMap(keypad => keypad.relays.flatMap(relay => (relay.spare ? [] : [relay.label])));
    expect(doors.map(({ label }) => label)).toEqual(labels);
    expect(doors.map(({ lock }) => lock.kind)).toEqual(["strike", "start contact", "motor lock", "bolt", "magnet"]);
    expect(doors.map(({ contacts }) => contacts.map(({ rated }) => rated?.amps))).toEqual([[2], [2], [1], [1], [1]]);
  });

  test("are worked out where the supply feeds them, on mains and at the end of its battery", () => {
    const [supply] = supplySums(wharf);
    expect(wharf.supplies).toHaveLength(1);
    expect(supply?.unknown).toEqual([]);
    const fed = doors.filter(({ fedBy }) => fedBy.length > 0);
    expect(fed.map(({ label }) => label)).toEqual(["Foot gate", "Loft stair door", "Drying floor"]);
    expect(fed.map(({ missing, onMains, atBatteryEnd }) => [missing, onMains === undefined, atBatteryEnd === undefined])).toEqual(
      fed.map(() => [[], false, false]),
    );
    expect(doors.at(-1)?.missing).toEqual(["the supply that feeds the door"]);
  });
});

describe("Curlew Court", () => {
  test("is quiet", () => {
    expect(found(court)).toEqual([]);
  });

  test("uses the other three models", () => {
    expect([...court.keypads.values()].map(keypad => keypad.model?.id)).toEqual(["knot-4", "turnstone-1", "avocet-2"]);
  });
});

describe.each([
  ["Tannery Wharf", wharf],
  ["Curlew Court", court],
])("%s", (_name, site) => {
  test("has no weak code, and none that is a slip from another of its keypad", () => {
    for (const keypad of site.keypads.values()) {
      const codes = [
        ...new Set(heldEverywhere(site).flatMap(({ keypad: at, use }) => (at === keypad ? (use.credential?.digits ?? []) : []))),
      ];
      expect(codes).not.toEqual([]);
      for (const [index, code] of codes.entries()) {
        expect(weakness(code)).toBeUndefined();
        for (const other of codes.slice(index + 1)) expect(placesApart(code, other)).toBeGreaterThanOrEqual(2);
      }
    }
  });

  test("is in the canonical layout", () => {
    for (const { file, text } of site.files) if (!file.includes("/models/")) expect(format(text)).toBe(text);
  });
});

test("each model is quiet when it is checked on its own", () => {
  const models = readdirSync(`${samples}models`).filter(name => name.endsWith(".mullion"));
  expect(models).toHaveLength(6);
  for (const name of models) expect({ name, found: found(loadSite(`${samples}models/${name}`, open)) }).toEqual({ name, found: [] });
});

function tagNumbers(site: Site): readonly string[] {
  return [...site.holders.values()].flatMap(holder =>
    holder.credentials.flatMap(({ node }) => (node.kind === "tag" && node.number ? [node.number.text] : [])),
  );
}
