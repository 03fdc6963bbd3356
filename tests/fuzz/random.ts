/** Chance from a seed: one seed gives the same draws on every machine. */

/** The generator sfc32 of the PractRand suite (public domain): 32 bits a draw, from a seed of 32 bits. */
export class Random {
  readonly seed: number;
  #a: number;
  #b: number;
  #c: number;
  #counter = 1;

  constructor(seed: number) {
    this.seed = seed >>> 0;
    this.#a = this.seed;
    this.#b = mixed(this.seed ^ 0x9e3779b9);
    this.#c = mixed(this.#b);
    for (let round = 0; round < 12; round++) this.bits();
  }

  /** A whole number of 32 bits. */
  bits(): number {
    const sum = (this.#a + this.#b + this.#counter) | 0;
    this.#counter = (this.#counter + 1) | 0;
    this.#a = this.#b ^ (this.#b >>> 9);
    this.#b = (this.#c + (this.#c << 3)) | 0;
    this.#c = ((this.#c << 21) | (this.#c >>> 11)) + sum;
    this.#c |= 0;
    return sum >>> 0;
  }

  /** From 0 up to `count`, which is left out; 0 where `count` is below 1. */
  below(count: number): number {
    return count < 1 ? 0 : Math.floor((this.bits() / 0x1_0000_0000) * count);
  }

  /** Both ends included. */
  between(least: number, most: number): number {
    return least + this.below(most - least + 1);
  }

  /** True once in `times`. */
  oneIn(times: number): boolean {
    return this.below(times) === 0;
  }

  one<T>(list: readonly T[]): T {
    return list[this.below(list.length)] as T;
  }

  bytes(count: number): Uint8Array {
    return Uint8Array.from({ length: count }, () => this.below(256));
  }

  shuffled<T>(list: readonly T[]): T[] {
    const all = [...list];
    for (let last = all.length - 1; last > 0; last--) {
      const other = this.below(last + 1);
      [all[last], all[other]] = [all[other] as T, all[last] as T];
    }
    return all;
  }
}

/** The seed of one case of a run: cases that follow each other have nothing to do with each other. */
export function seedOf(run: number, index: number): number {
  return mixed((run ^ Math.imul(index + 1, 0x9e3779b9)) | 0);
}

/** The finalizer of MurmurHash3 (public domain): every bit of the seed changes half of the bits. */
function mixed(seed: number): number {
  let hash = seed >>> 0;
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return (hash ^ (hash >>> 16)) >>> 0;
}
