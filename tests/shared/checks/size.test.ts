/** Large sites: the time of the checks grows about as the text does, whatever is wrong with it. */
import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import { findingsOf } from "../../../shared/checks/run.ts";
import { loadSite } from "../../../shared/site/load.ts";
import { mullion, today } from "../../support/fixture.ts";

const model = mullion`
model large "Many slots" {
  relays 1 = 1, 2 = 2
  slots 00001..99999 per relay
  codes 6 digits
  rewrite replaces
  twins refused
  enter * {installer} #
  leave * *
  put code 1 {relay} {slot} {code} #
  put tag 2 {relay} {slot} [present tag] #
  clear slot 3 {relay} {slot} #
  set installer 4 {code} {code} #
  open code {code}
  open tag [present tag]
  factory { installer code 306918 }
}
`;

interface Slips {
  readonly oneSlot?: boolean;
  readonly unknown?: boolean;
  readonly oneCode?: boolean;
}

/** Five lines a holder. */
function siteOf(count: number, { oneSlot, unknown, oneCode }: Slips): string {
  const lines = [model];
  const code = (index: number) => String((index * 7919 + 123457) % 1_000_000).padStart(6, "0");
  for (let i = 0; i < count; i++) lines.push(`holder h${i} "Holder ${i}"`, `  code ${code(oneCode ? 0 : i)}`, `  tag ${1000 + i}`);
  lines.push('keypad gate "Gate" : large {', "  installer code 604418", '  relay 1 "Foot gate" {');
  for (let i = 0; i < count; i++) lines.push(`    ${String(oneSlot ? 1 : i + 1).padStart(5, "0")} ${unknown ? "x" : "h"}${i}`);
  lines.push("  }", '  relay 2 "Vehicle gate" {');
  for (let i = 0; i < count; i++) lines.push(`    ${String(i + 1).padStart(5, "0")} h${i}.tag`);
  lines.push("  }", "}", "");
  return lines.join("\n");
}

/** The least of several runs, in milliseconds of the processor: what else the machine does is not counted. */
function msToCheck(count: number, slips: Slips, code: string): number {
  const text = siteOf(count, slips);
  const source = { file: "/a.mullion", text, ...parse(text) };
  let least = Number.POSITIVE_INFINITY;
  for (let run = 0; run < 5; run++) {
    const site = loadSite("/a.mullion", file => (file === "/a.mullion" ? source : undefined));
    const begun = process.cpuUsage();
    const findings = findingsOf(site, { today });
    const { user, system } = process.cpuUsage(begun);
    least = Math.min(least, (user + system) / 1000);
    expect(findings.map(finding => finding.code)).toContain(code);
  }
  return least;
}

describe.each<[string, string, Slips]>([
  ["little wrong", "weak-code", {}],
  ["everything in one slot", "slot-clash", { oneSlot: true }],
  ["every entry for somebody unknown", "name-unknown", { unknown: true }],
  ["one code for all", "code-clash", { oneCode: true }],
])("%s", (_name, code, slips) => {
  test("five times the text takes not much more than five times as long", () => {
    msToCheck(1000, slips, code);
    const small = msToCheck(1000, slips, code);
    const large = msToCheck(5000, slips, code);
    // A scan within a scan would take twenty-five times as long. A few milliseconds are what it takes whatever the text.
    expect(large / Math.max(small, 5)).toBeLessThan(15);
  });
});
