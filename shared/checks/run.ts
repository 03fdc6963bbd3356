/** All checks of a site: findings in the order of the text, what is allowed taken out, and the fixes of a finding. */
import type { FileId, Finding, Fix } from "../finding.ts";
import { must } from "../must.ts";
import type { Allowance, Site } from "../site/site.ts";
import { allowable } from "./allow-unused.ts";
import type { Check, CheckContext } from "./check.ts";
import { checks } from "./index.ts";
import { mostFindings } from "./too-many.ts";

/**
 * Every finding of a site, sorted by file (in the site's order) and offset; beyond the most that are listed, one counts the rest.
 * The same site and day give the same findings.
 */
export function findingsOf(site: Site, context: CheckContext): readonly Finding[] {
  const found: Finding[] = [];
  const used = new Set<Allowance>();
  const across = new Set(checks.flatMap((check: Check) => (check.across ? [check.code] : [])));
  const notRun = new Set(checks.flatMap((check: Check) => (check.needsOpen && site.shut.length > 0 ? [check.code] : [])));
  const run = checks.filter(({ code }) => !notRun.has(code));
  const nothing = { findings: [], used, across, notRun };
  for (const check of run) if (!check.last) for (const finding of check.find(site, context, nothing)) found.push(finding);

  let findings = inOrder(withoutAllowed(found, site.allowances, used), site);
  for (const check of run) {
    if (!check.last) continue;
    const more = [...check.find(site, context, { findings, used, across, notRun })];
    if (more.length > 0) findings = inOrder([...findings, ...more], site);
  }
  const most = context.mostFindings ?? mostFindings;
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

function withoutAllowed(found: readonly Finding[], allowances: readonly Allowance[], used: Set<Allowance>): readonly Finding[] {
  if (allowances.length === 0) return found;
  const valid = new Map<FileId, Map<string, Allowance[]>>();
  for (const allowance of allowances) {
    if (allowance.reason === "") continue;
    const ofFile = valid.get(allowance.file) ?? new Map<string, Allowance[]>();
    valid.set(allowance.file, ofFile);
    const ofCode = ofFile.get(allowance.code) ?? [];
    ofFile.set(allowance.code, ofCode);
    ofCode.push(allowance);
  }
  return found.filter(finding => {
    const allowed = valid.get(finding.file)?.get(finding.code);
    if (!allowed || !allowable(finding)) return true;
    const here = allowanceAt(allowed, finding.start);
    if (!here) return true;
    used.add(here);
    return false;
  });
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

function inOrder(findings: readonly Finding[], site: Site): readonly Finding[] {
  const place = new Map(site.files.map((source, index) => [source.file, index]));
  const rank = new Map<string, number>(checks.map((check, index) => [check.code, index]));
  const fileRank = (finding: Finding) => place.get(finding.file) ?? -1;
  return [...findings].sort(
    (one, other) =>
      fileRank(one) - fileRank(other) ||
      one.start - other.start ||
      one.end - other.end ||
      (rank.get(one.code) ?? 0) - (rank.get(other.code) ?? 0),
  );
}
