/** `samples/broken/`: one small file for each finding, named after it, with nothing else to find. */
import { existsSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { shelf } from "../../server/files.ts";
import { findingsAcross } from "../../shared/checks/across.ts";
import { checks } from "../../shared/checks/index.ts";
import { findingsOf } from "../../shared/checks/run.ts";
import type { FileId, SourceFile } from "../../shared/finding.ts";
import { loadSite } from "../../shared/site/load.ts";
import { tellingCodes } from "../support/fixture.ts";

const folder = fileURLToPath(new URL("../../samples/broken/", import.meta.url));
const names = readdirSync(folder).map(name => name.slice(0, -".mullion".length));

/** Ten thousand findings make no small file, and a plain record is told apart only beside a sealed file, which is shut. */
const noFile = ["too-many", "record-plain"];
/** What one of the files uses, or is another site beside it. */
const used = ["installer-reused-elsewhere", "use-cycle-holders"];

function open(file: FileId): SourceFile | undefined {
  return shelf().open(file);
}

test("each finding has its file, and each file its finding", () => {
  const wanted = checks.map(check => check.code).filter(code => !noFile.includes(code));
  expect([...names].sort()).toEqual([...wanted, ...used].sort());
});

describe.each(names.filter(name => !used.includes(name)))("%s", name => {
  const site = loadSite(`${folder}${name}.mullion`, open);
  const besides = existsSync(`${folder}${name}-elsewhere.mullion`) ? [loadSite(`${folder}${name}-elsewhere.mullion`, open)] : [];
  const findings = [...findingsOf(site, { today: "2026-11-25" }), ...findingsAcross([site, ...besides])];

  test("is found, and nothing else is", () => {
    expect([...new Set(findings.map(({ code }) => code))]).toEqual([name]);
  });

  test("says so without a code", () => {
    expect(tellingCodes(site, findings)).toEqual([]);
  });

  test("is a small file that says what is wrong in its first line", () => {
    const text = site.files[0]?.text ?? "";
    expect(text.split("\n").length).toBeLessThan(50);
    expect(text).toMatch(/^\/\/ [A-Z]/);
  });
});
