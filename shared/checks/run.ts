/** All checks of a site: findings in the order of the text, what is allowed taken out, and the fixes of a finding. */
import type { FileId, Finding, Fix } from "../finding.ts";
import { must } from "../must.ts";
import type { Allowance, Site } from "../site/site.ts";
import { allowable } from "./allow-unused.ts";
import type { Beyond, Check, CheckContext } from "./check.ts";
import { checks } from "./index.ts";
import { mostFindings } from "./too-many.ts";

/**
 * Every finding of a site, sorted by file (in the site's order) and offset; beyond the most that are listed, one counts the rest.
 * The same site and day give the same findings.
 */
export function findingsOf(site: Site, context: CheckContext): readonly Finding[] {
  const used = new Set<Allowance>();
  const across = new Set(checks.flatMap((check: Check) => (check.across ? [check.code] : [])));
  const notRun = new Set(checks.flatMap((check: Check) => (check.needsOpen && site.shut.length > 0 ? [check.code] : [])));
  const run = checks.filter(({ code }) => !notRun.has(code));
  const most = context.mostFindings ?? mostFindings;
  const list = new FirstFindings(site, most);
  const isAllowed = allowedBy(site.allowances, used);
  const nothing = { findings: [], beyond: list.beyond, used, across, notRun };
  for (const check of run)
    if (!check.last) for (const finding of check.find(site, context, nothing)) if (!isAllowed(finding)) list.add(finding);

  for (const check of run) {
    if (!check.last) continue;
    const soFar = { findings: list.inOrder(), beyond: list.beyond, used, across, notRun };
    for (const finding of [...check.find(site, context, soFar)]) list.add(finding);
  }
  const findings = list.inOrder();
  if (findings.length <= most) return findings;
  const counted = findings.find(finding => finding.code === "too-many");
  must(counted, "findings that are not listed are counted");
  return [...findings.filter(finding => finding !== counted).slice(0, most), counted];
}

/** Ways out of a finding, the best first. @param site the very site that it was found in. */
export function fixesFor(finding: Finding, site: Site): readonly Fix[] {
  const check = checks.find(one => one.code === finding.code);
  must(check, `a check is named ${finding.code}`);
  return check.fixes(finding, site);
}

/** Whether a finding is silenced; the allowance that does it is then `used`. */
function allowedBy(allowances: readonly Allowance[], used: Set<Allowance>): (finding: Finding) => boolean {
  const valid = new Map<FileId, Map<string, Allowance[]>>();
  for (const allowance of allowances) {
    if (allowance.reason === "") continue;
    const ofFile = valid.get(allowance.file) ?? new Map<string, Allowance[]>();
    valid.set(allowance.file, ofFile);
    const ofCode = ofFile.get(allowance.code) ?? [];
    ofFile.set(allowance.code, ofCode);
    ofCode.push(allowance);
  }
  return finding => {
    const allowed = valid.get(finding.file)?.get(finding.code);
    if (!allowed || !allowable(finding)) return false;
    const here = allowanceAt(allowed, finding.start);
    if (here) used.add(here);
    return here !== undefined;
  };
}

/** Of allowances of one code in the order written: the first whose line holds the offset. */
function allowanceAt(allowances: readonly Allowance[], offset: number): Allowance | undefined {
  let low = 0;
  let high = allowances.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const line = allowances[middle]?.line;
    if (line && line.end < offset) low = middle + 1;
    else high = middle;
  }
  const here = allowances[low];
  return here && here.line.start <= offset ? here : undefined;
}

/** The first findings in the order of the text; those beyond are tallied and let go, so that millions of them need no room. */
class FirstFindings {
  readonly beyond: Beyond = { count: 0, errors: 0, keypads: new Set(), everyKeypad: false };
  readonly #compare: (one: Finding, other: Finding) => number;
  readonly #kept: number;
  #list: Finding[] = [];

  /** @param most that are listed; one more is kept, beside which the rest is counted */
  constructor(site: Site, most: number) {
    const place = new Map(site.files.map((source, index) => [source.file, index]));
    const rank = new Map<string, number>(checks.map((check, index) => [check.code, index]));
    const fileRank = (finding: Finding) => place.get(finding.file) ?? -1;
    this.#compare = (one, other) =>
      fileRank(one) - fileRank(other) ||
      one.start - other.start ||
      one.end - other.end ||
      (rank.get(one.code) ?? 0) - (rank.get(other.code) ?? 0);
    this.#kept = most + 1;
  }

  add(finding: Finding): void {
    this.#list.push(finding);
    if (this.#list.length > 4 * this.#kept) this.#letGo();
  }

  inOrder(): readonly Finding[] {
    this.#list.sort(this.#compare);
    return [...this.#list];
  }

  #letGo(): void {
    this.#list.sort(this.#compare);
    for (const { severity, keypads } of this.#list.splice(this.#kept)) {
      this.beyond.count++;
      if (severity !== "error") continue;
      this.beyond.errors++;
      if (keypads.length === 0) this.beyond.everyKeypad = true;
      for (const keypad of keypads) this.beyond.keypads.add(keypad);
    }
  }
}
