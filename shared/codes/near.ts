/** Codes that a slip of the finger turns into one another. */

/** A stored code: what is keyed and what it opens, as comparable text (relays or doors). */
export interface StoredCode {
  readonly digits: string;
  readonly opens: string;
}

/**
 * Pairs of codes of one length that open different relays and differ in fewer than `places` places (Hamming distance), but in at least one.
 *
 * Every pair at distance below `places` agrees once some `places - 1` positions are left out, so codes are put into buckets by what remains:
 * about linear in the number of codes for the usual two places. (Two places catch every single mistyped digit; at most 10^(n-1) codes of n digits can stand so,
 * the Singleton bound.)
 *
 * @returns index pairs, the smaller first, ascending.
 */
export function nearPairs(codes: readonly StoredCode[], places: number): readonly (readonly [number, number])[] {
  if (codes.every(({ opens }) => opens === codes[0]?.opens)) return [];
  // Different digits are compared: the same code many times over is no pair of near codes, and must not be compared as one.
  const indexes = new Map<string, number[]>();
  codes.forEach(({ digits }, index) => {
    const same = indexes.get(digits);
    if (same) same.push(index);
    else indexes.set(digits, [index]);
  });
  const pairs: (readonly [number, number])[] = [];
  for (const [one, other] of nearDigits([...indexes.keys()], places)) {
    for (const a of indexes.get(one) ?? []) {
      for (const b of indexes.get(other) ?? []) if (codes[a]?.opens !== codes[b]?.opens) pairs.push(a < b ? [a, b] : [b, a]);
    }
  }
  return pairs.sort(([a, b], [c, d]) => a - c || b - d);
}

/** Pairs of different digits of one length that differ in fewer than `places` places, each pair once. */
function* nearDigits(all: readonly string[], places: number): Iterable<readonly [string, string]> {
  const before = new Map<number, string | string[]>();
  for (const digits of all) {
    let near: Set<string> | undefined;
    for (const left of leftOut(digits.length, places - 1)) {
      const key = maskedBy(digits, left);
      const bucket = before.get(key);
      if (bucket === undefined) before.set(key, digits);
      else if (typeof bucket === "string") {
        near = (near ?? new Set()).add(bucket);
        before.set(key, [bucket, digits]);
      } else {
        near ??= new Set();
        for (const other of bucket) near.add(other);
        bucket.push(digits);
      }
    }
    for (const other of near ?? []) if (placesApart(digits, other) < places) yield [other, digits];
  }
}

/** In how many places two codes differ; codes of different lengths are told apart by length and never near. */
export function placesApart(one: string, other: string): number {
  if (one.length !== other.length) return Number.POSITIVE_INFINITY;
  let apart = 0;
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) apart++;
  return apart;
}

/** At most this many codes of `digits` digits can stand `places` apart (Singleton 1964: q^(n-d+1)). */
export function mostCodesApart(digits: number, places: number): number {
  return 10 ** Math.max(0, digits - places + 1);
}

const choices = new Map<string, readonly number[]>();

/** All ways to leave out `count` of `length` positions, as bit masks. */
function leftOut(length: number, count: number): readonly number[] {
  const key = `${length}/${count}`;
  const known = choices.get(key);
  if (known) return known;
  const masks: number[] = [];
  for (let mask = 0; mask < 1 << length; mask++) if (bits(mask) === Math.min(count, length)) masks.push(mask);
  choices.set(key, masks);
  return masks;
}

function bits(mask: number): number {
  let count = 0;
  for (let rest = mask; rest; rest &= rest - 1) count++;
  return count;
}

/** A number that is the same for codes that agree outside the mask, and seldom for others. */
function maskedBy(digits: string, mask: number): number {
  let masked = mask;
  for (let i = 0; i < digits.length; i++)
    masked = (Math.imul(masked, 11) + (mask & (1 << i) ? 10 : digits.charCodeAt(i) - 48)) & 0x3fff_ffff;
  return masked;
}
