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
 * about linear in the number of codes for the usual two places. A few codes, or very long ones, are compared each with each. (Two places catch every single mistyped digit; at most 10^(n-1) codes of n digits can stand so,
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
  const byLength = new Map<number, string[]>();
  for (const digits of all) {
    const same = byLength.get(digits.length);
    if (same) same.push(digits);
    else byLength.set(digits.length, [digits]);
  }
  for (const [length, codes] of byLength)
    yield* fewerWays(length, places, codes.length) ? inBuckets(codes, places) : allPairs(codes, places);
}

function* inBuckets(codes: readonly string[], places: number): Iterable<readonly [string, string]> {
  const before = new Map<number, string | string[]>();
  for (const digits of codes) {
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

function* allPairs(codes: readonly string[], places: number): Iterable<readonly [string, string]> {
  for (const [index, later] of codes.entries()) {
    for (let i = 0; i < index; i++) {
      const one = codes[i] as string;
      if (placesApart(one, later) < places) yield [one, later];
    }
  }
}

/**
 * Whether any of `codes` differs from a code in fewer than `places` places, the same code counted; asked for one code after another.
 * Codes of other lengths are never near.
 */
export function nearAny(codes: Iterable<string>, places: number): (code: string) => boolean {
  const all = [...new Set(codes)];
  const buckets = new Map<number, Map<number, string[]>>();
  const bucketsOf = (length: number) => {
    const known = buckets.get(length);
    if (known) return known;
    const made = new Map<number, string[]>();
    buckets.set(length, made);
    for (const digits of all) {
      if (digits.length !== length) continue;
      for (const left of leftOut(length, places - 1)) {
        const key = maskedBy(digits, left);
        const bucket = made.get(key);
        if (bucket) bucket.push(digits);
        else made.set(key, [digits]);
      }
    }
    return made;
  };
  const near = (code: string, others: readonly string[]) => others.some(other => placesApart(code, other) < places);
  return code =>
    fewerWays(code.length, places, all.length)
      ? leftOut(code.length, places - 1).some(left => near(code, bucketsOf(code.length).get(maskedBy(code, left)) ?? []))
      : near(code, all);
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

/** Positions that a mask of bits has room for. */
const mostMasked = 30;

/** Whether there are fewer ways to leave positions out than `codes` to compare with: else comparing is quicker, and for very long codes all that can be done. */
function fewerWays(length: number, places: number, codes: number): boolean {
  const count = Math.min(places - 1, length);
  if (length > mostMasked || count < 0) return false;
  let ways = 1;
  for (let i = 0; i < count; i++) ways = (ways * (length - i)) / (i + 1);
  return ways < codes;
}

const choices = new Map<string, readonly number[]>();

/** All ways to leave out `count` of `length` positions, as bit masks. */
function leftOut(length: number, count: number): readonly number[] {
  const key = `${length}/${count}`;
  const known = choices.get(key);
  if (known) return known;
  const leave = Math.min(count, length);
  // Whichever are fewer are chosen, those left out or those kept: half of many positions can be chosen in far more ways than all but a few.
  const chosen = Math.min(leave, length - leave);
  let masks: readonly { readonly mask: number; readonly next: number }[] = [{ mask: 0, next: 0 }];
  for (let i = 0; i < chosen; i++) {
    masks = masks.flatMap(({ mask, next }) =>
      Array.from({ length: length - next }, (_, after) => ({ mask: mask | (1 << (next + after)), next: next + after + 1 })),
    );
  }
  const every = 2 ** length - 1;
  const made = masks.map(({ mask }) => (chosen === leave ? mask : every ^ mask));
  choices.set(key, made);
  return made;
}

/** A number that is the same for codes that agree outside the mask, and seldom for others. */
function maskedBy(digits: string, mask: number): number {
  let masked = mask;
  for (let i = 0; i < digits.length; i++)
    masked = (Math.imul(masked, 11) + (mask & (1 << i) ? 10 : digits.charCodeAt(i) - 48)) & 0x3fff_ffff;
  return masked;
}
