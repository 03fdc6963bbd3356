/** Places that wait for one another: each is to hold what the next one holds. One of each ring is emptied first. */
import type { Place } from "./place.ts";
import type { Step } from "./steps.ts";

/** What emptying a place first costs more than writing over it. */
export interface Extra {
  readonly tags: number;
  readonly entries: number;
  readonly keys: number;
}

/**
 * Places to be emptied so that every ring among `left` is broken at least once; some rings may come to light only when these are
 * gone. Fewest tags, then entries, then keys; of equals the place after which nothing unwanted is left open for longest.
 *
 * @param left entries that cannot be ordered.
 * @param extra what emptying a place costs; undefined where it cannot be emptied, or already is.
 * @param shuts whether an entry shuts something that should not be open.
 * @returns undefined where a ring has no place that can be emptied.
 */
export function breakers(
  left: readonly Step[],
  extra: (place: Place) => Extra | undefined,
  shuts: (step: Step) => boolean,
): ReadonlySet<Place> | undefined {
  const rings = ringsOf(left);
  const chosen = new Set<Place>();
  const open = shareEmptied(rings, extra, chosen);
  for (const ring of open) {
    const place = bestOf(ring, extra, shuts);
    if (!place) return undefined;
    chosen.add(place);
  }
  return chosen;
}

/** Rings of entries, each needing the next and the last the first. */
function ringsOf(left: readonly Step[]): readonly (readonly Step[])[] {
  const among = new Set(left);
  const next = (step: Step) => {
    for (const need of step.needs) if (among.has(need)) return need;
    return undefined;
  };
  const walkOf = new Map<Step, number>();
  const rings: Step[][] = [];
  left.forEach((start, walk) => {
    const path: Step[] = [];
    let step: Step | undefined = start;
    while (step && !walkOf.has(step)) {
      walkOf.set(step, walk);
      path.push(step);
      step = next(step);
    }
    if (step && walkOf.get(step) === walk) rings.push(path.slice(path.indexOf(step)));
  });
  return rings;
}

/** A place of two rings, one of codes and one of tags, breaks both: as many such pairs of rings as there can be. */
function shareEmptied(
  rings: readonly (readonly Step[])[],
  extra: (place: Place) => Extra | undefined,
  chosen: Set<Place>,
): readonly (readonly Step[])[] {
  const ringsAt = new Map<Place, number[]>();
  rings.forEach((ring, index) => {
    for (const { writes } of ring) if (writes) ringsAt.set(writes, [...(ringsAt.get(writes) ?? []), index]);
  });
  const partners = new Map<number, Map<number, Place>>();
  for (const [place, [one, other]] of ringsAt) {
    const cost = one === undefined || other === undefined || one === other ? undefined : extra(place);
    if (!cost || cost.tags > 0 || cost.entries > 1 || one === undefined || other === undefined) continue;
    partners.set(one, (partners.get(one) ?? new Map()).set(other, place));
    partners.set(other, (partners.get(other) ?? new Map()).set(one, place));
  }
  const isCodes = (index: number) => rings[index]?.some(step => step.operation.operation === "put code") ?? false;
  const matched = new Map<number, number>();
  const augment = (ring: number, tried: Set<number>): boolean => {
    for (const other of partners.get(ring)?.keys() ?? []) {
      if (tried.has(other)) continue;
      tried.add(other);
      const rival = matched.get(other);
      if (rival === undefined || augment(rival, tried)) {
        matched.set(other, ring);
        return true;
      }
    }
    return false;
  };
  for (const ring of partners.keys()) if (isCodes(ring)) augment(ring, new Set());
  const done = new Set<number>();
  for (const [tags, codes] of matched) {
    const place = partners.get(codes)?.get(tags);
    if (!place) continue;
    chosen.add(place);
    done.add(tags).add(codes);
  }
  return rings.filter((_, index) => !done.has(index));
}

function bestOf(ring: readonly Step[], extra: (place: Place) => Extra | undefined, shuts: (step: Step) => boolean): Place | undefined {
  let best: { readonly place: Place; readonly cost: Extra; readonly quiet: number } | undefined;
  const quiet = quietAfter(ring, shuts);
  ring.forEach(({ writes }, index) => {
    const cost = writes && extra(writes);
    if (!writes || !cost) return;
    const one = { place: writes, cost, quiet: quiet[index] ?? 0 };
    if (!best || compare(one, best) < 0) best = one;
  });
  return best?.place;
}

function compare(one: { cost: Extra; quiet: number; place: Place }, other: { cost: Extra; quiet: number; place: Place }): number {
  return (
    one.cost.tags - other.cost.tags ||
    one.cost.entries - other.cost.entries ||
    one.cost.keys - other.cost.keys ||
    other.quiet - one.quiet ||
    one.place.rank - other.place.rank
  );
}

/** For each entry of a ring: how many of the last entries shut nothing, when the ring is broken at its place. */
function quietAfter(ring: readonly Step[], shuts: (step: Step) => boolean): readonly number[] {
  const quiet = new Array<number>(ring.length).fill(ring.length);
  let distance = ring.length;
  for (let at = 2 * ring.length - 1; at >= 0; at--) {
    const index = at % ring.length;
    const step = ring[index];
    if (at < ring.length) quiet[index] = Math.min(distance, ring.length);
    distance = step && shuts(step) ? 1 : distance + 1;
  }
  return quiet;
}
