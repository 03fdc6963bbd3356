/** What a change of a site's text means for people and doors, what it will take at each keypad, and what is to be looked at. No codes. */
import { findingsOf } from "../checks/run.ts";
import type { Finding } from "../finding.ts";
import type { Day, Site } from "../site/site.ts";
import type { Change } from "./change.ts";
import { doorChanges, renamedDoors } from "./doors.ts";
import { keypadChanges } from "./keypads.ts";
import { holderPairs, keypadPairs } from "./match.ts";
import { peopleChanges } from "./people.ts";
import { siteChanges } from "./site.ts";
import { warnings } from "./warnings/index.ts";
import type { Warned } from "./warnings/warning.ts";
import type { Work } from "./work.ts";
import { workOf } from "./work.ts";

export interface Review {
  readonly before: Site;
  readonly after: Site;
  /** Holders and who opens what. */
  readonly people: readonly Change[];
  /** The site and its keypads. */
  readonly keypads: readonly Change[];
  /** Of every keypad of the new text. */
  readonly work: readonly Work[];
  readonly warnings: readonly Warned[];
  /** That the old text did not have, in the order of the new text. */
  readonly found: readonly Finding[];
  /** That the new text does not have any more. */
  readonly settled: readonly Finding[];
}

/** Compares two texts of one site. @param before a site without files where the site is new. */
export function reviewOf(before: Site, after: Site, today: Day): Review {
  const holders = holderPairs(before, after);
  const keypads = keypadPairs(before, after);
  const doorNames = renamedDoors(keypads);
  const [old, fresh] = [findingsOf(before, { today }), findingsOf(after, { today })];
  return {
    before,
    after,
    people: [...peopleChanges(holders), ...doorChanges(before, after, holders, doorNames, today)],
    keypads: [...siteChanges(before, after, keypads, doorNames), ...keypadChanges(before, after, keypads, holders)],
    work: workOf(before, after, keypads, fresh),
    warnings: warnings.flatMap(({ code, find }) => find(before, after, holders, keypads).map(found => ({ code, ...found }))),
    found: without(fresh, old),
    settled: without(old, fresh),
  };
}

/** There is something to type because of the change, or it cannot be said what. */
export function isToType({ work }: Review): boolean {
  return work.some(({ touched, entries }) => touched && entries !== 0);
}

/** The change means nothing to anybody. */
export function isEmpty({ people, keypads, work, warnings: said, found, settled }: Review): boolean {
  return [people, keypads, work.filter(({ touched }) => touched), said, found, settled].every(({ length }) => length === 0);
}

/** Findings are the same by what they say, wherever it stands now. */
function without(all: readonly Finding[], others: readonly Finding[]): readonly Finding[] {
  const left = new Map<string, number>();
  const keyOf = ({ code, severity, message }: Finding) => `${code}\n${severity}\n${message}`;
  for (const one of others) left.set(keyOf(one), (left.get(keyOf(one)) ?? 0) + 1);
  return all.filter(one => {
    const count = left.get(keyOf(one)) ?? 0;
    left.set(keyOf(one), count - 1);
    return count <= 0;
  });
}
