/** The papers of the samples: no code where there must be none, nobody else's on a slip, dots where codes are hidden. */
import { describe, expect, test } from "vitest";
import { paperFormats } from "../../../shared/papers/formats/index.ts";
import { papers } from "../../../shared/papers/index.ts";
import type { Paper } from "../../../shared/papers/paper.ts";
import type { Site } from "../../../shared/site/site.ts";
import { codesOf, sampleSites, standing } from "../../support/samples.ts";

const today = "2026-11-25";
const sites = sampleSites();

function written(made: readonly Paper[]): string {
  return paperFormats.map(format => format.render(made)).join("\n");
}

const kinds = (...names: readonly string[]) => papers.filter(({ name }) => names.includes(name));

describe.each(sites.map(site => ({ name: site.label ?? "", site })))("$name", ({ site }) => {
  const codes = codesOf(site);
  test("the samples have codes, and every kind of paper has something to say", () => {
    expect(codes.length).toBeGreaterThan(10);
    for (const kind of papers) expect(kind.make(site, { today, hideCodes: false }).length, kind.name).toBeGreaterThan(0);
  });

  test.each(kinds("register", "visit", "handover"))("$name holds no code", kind => {
    expect(standing(written(kind.make(site, { today, hideCodes: false })), codes)).toEqual([]);
  });

  test.each(papers)("$name: every code is dots where codes are hidden", kind => {
    expect(standing(written(kind.make(site, { today, hideCodes: true })), codes)).toEqual([]);
  });

  test("a slip holds its own holder's codes, all that are placed, and nobody else's", () => {
    for (const [holder, slip] of slipsOf(site)) {
      const own = holder.credentials.flatMap(({ digits }) => digits ?? []);
      const found = standing(written([slip]), codes);
      expect(
        found.filter(code => !own.includes(code)),
        holder.id,
      ).toEqual([]);
      const placed = [...site.keypads.values()].flatMap(({ placements, allRelay }) =>
        [...placements.flatMap(({ held }) => held), ...allRelay.flatMap(({ held }) => held ?? [])].flatMap(({ credential }) =>
          credential?.holder === holder && credential.digits ? [credential.digits] : [],
        ),
      );
      expect([...found].sort(), holder.id).toEqual([...new Set(placed)].sort());
    }
  });

  test("an envelope holds the installer code of its keypad and no other code", () => {
    for (const keypad of site.keypads.values()) {
      const [paper] = kinds("envelope").flatMap(kind => kind.make(site, { today, hideCodes: false, keypads: [keypad] }));
      const code = keypad.installer?.held?.credential?.digits ?? keypad.installer?.digits;
      expect(standing(paper ? written([paper]) : "", codes), keypad.id).toEqual([code]);
    }
  });

  test("no address stands where codes do, and no file is named by a code", () => {
    for (const kind of papers)
      for (const paper of kind.make(site, { today, hideCodes: false })) {
        expect(standing(paper.file.replaceAll("-", " "), codes)).toEqual([]);
        if (kind.name === "slips" || kind.name === "envelope") expect(written([paper])).not.toContain(site.address);
      }
  });

  test("nothing promises anything", () => {
    for (const kind of papers)
      expect(written(kind.make(site, { today, hideCodes: true }))).not.toMatch(/complian|certified|safe to use|approved/i);
  });
});

function slipsOf(site: Site) {
  return [...site.holders.values()].flatMap(holder => {
    const [slip] = kinds("slips").flatMap(kind => kind.make(site, { today, hideCodes: false, holders: [holder.id] }));
    return slip ? [[holder, slip] as const] : [];
  });
}
