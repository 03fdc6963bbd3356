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
  const pairs = new Map<number, readonly [number, number]>();
  // A bucket by digits: the same code many times over is no pair of near codes, and must not be compared as one.
  const buckets = new Map<string, Map<string, number[]>>();
  codes.forEach((code, index) => {
    for (const left of leftOut(code.digits.length, places - 1)) {
      const key = maskedBy(code.digits, left);
      const bucket = buckets.get(key) ?? new Map<string, number[]>();
      buckets.set(key, bucket);
      for (const [digits, others] of bucket) {
        if (digits === code.digits) continue;
        for (const other of others) {
          if (codes[other]?.opens !== code.opens) pairs.set(other * codes.length + index, [other, index]);
        }
      }
      const same = bucket.get(code.digits) ?? [];
      bucket.set(code.digits, same);
      same.push(index);
    }
  });
  return [...pairs.entries()].sort(([a], [b]) => a - b).map(([, pair]) => pair);
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

function maskedBy(digits: string, mask: number): string {
  let masked = "";
  for (let i = 0; i < digits.length; i++) masked += mask & (1 << i) ? "_" : digits[i];
  return masked;
}
