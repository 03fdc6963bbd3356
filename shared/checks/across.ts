/** What can only be seen over several sites: the same secret or the same tag in two of them. Sites are let go of as soon as they are looked at. */
import type { FileId, Finding, Place } from "../finding.ts";
import type { Site } from "../site/site.ts";
import { allowable } from "./allow-unused.ts";
import type { AcrossSites, Check, SeenAt } from "./check.ts";
import { checks } from "./index.ts";

interface Seen extends SeenAt {
  readonly root: FileId;
  readonly siteLabel: string;
  /** An allowance stands at the place. */
  readonly allowed: boolean;
}

/** Collects from each site what the checks compare, and finds what stands in more than one of them. */
export class Across {
  readonly #seen = new Map<Check, Map<string, Seen[]>>();

  /** A file that names no site is somebody's draft, or a part: it is compared with nothing. */
  add(site: Site): void {
    if (!site.node) return;
    for (const [check, all] of seenIn(site)) {
      const byKey = this.#seen.get(check) ?? new Map<string, Seen[]>();
      this.#seen.set(check, byKey);
      for (const seen of all) {
        const list = byKey.get(seen.key);
        if (!list) byKey.set(seen.key, [seen]);
        // A file that two sites use says it once.
        else if (!list.some(other => samePlace(other, seen))) list.push(seen);
      }
    }
  }

  /** One finding for each thing that is in several sites, at the first path's place, the others related. */
  findings(): readonly Finding[] {
    const findings: Finding[] = [];
    for (const [check, byKey] of this.#seen) {
      if (!check.across) continue;
      for (const seen of byKey.values()) {
        const finding = seen.length > 1 ? found(check, check.across, seen) : undefined;
        if (finding) findings.push(finding);
      }
    }
    return findings;
  }
}

/** A site says the same each time it is asked, and of thousands in a folder one is typed into. */
const seenBefore = new WeakMap<Site, ReadonlyMap<Check, readonly Seen[]>>();

function seenIn(site: Site): ReadonlyMap<Check, readonly Seen[]> {
  const before = seenBefore.get(site);
  if (before) return before;
  const all = new Map<Check, readonly Seen[]>();
  for (const check of checks as readonly Check[]) {
    if (!check.across || (check.needsOpen && site.shut.length > 0)) continue;
    const isAllowed = (seen: SeenAt) =>
      site.allowances.some(
        ({ file, code, reason, line }) =>
          file === seen.file && code === check.code && reason !== "" && line.start <= seen.start && seen.start <= line.end,
      );
    const siteLabel = site.label ?? "a site without a name";
    all.set(
      check,
      Array.from(check.across.sees(site), seen => ({ ...seen, root: site.root, siteLabel, allowed: isAllowed(seen) })),
    );
  }
  seenBefore.set(site, all);
  return all;
}

/** The same for sites that are all at hand. */
export function findingsAcross(sites: Iterable<Site>): readonly Finding[] {
  const across = new Across();
  for (const site of sites) across.add(site);
  return across.findings();
}

function found(check: Check, across: AcrossSites, seen: readonly Seen[]): Finding | undefined {
  const [first, ...later] = [...seen].sort(
    (one, other) => order(one.root, other.root) || order(one.file, other.file) || one.start - other.start,
  );
  if (!first) return undefined;
  const others = later.filter(
    other => other.root !== first.root && other.file !== first.file && (other.person === undefined || other.person !== first.person),
  );
  if (others.length === 0) return undefined;
  const { file, start, end } = first;
  const finding: Finding = {
    file,
    start,
    end,
    code: check.code,
    severity: across.severity,
    message: across.message(first, [...new Set(others.map(other => `${other.who} (${other.siteLabel})`))]),
    related: others.map(other => ({ file: other.file, start: other.start, end: other.end, message: `${other.who}, ${other.siteLabel}` })),
    keypads: first.keypads,
    found: undefined,
  };
  return first.allowed && allowable(finding) ? undefined : finding;
}

function samePlace(one: Place, other: Place): boolean {
  return one.file === other.file && one.start === other.start;
}

function order(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
