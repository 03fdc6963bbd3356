/** The order in which entries are typed: what shuts something first, then the order of the text, and nothing before what it needs. */
import type { Step } from "./steps.ts";

/**
 * Sorts entries so that each comes after those that it needs, and otherwise by group and rank.
 *
 * @param groupOf the lower group first; an entry that another needs comes no later than that one's group.
 * @returns the order, and what cannot be ordered because it needs itself in the end. O(n log n).
 */
export function inOrder(
  steps: readonly Step[],
  groupOf: (step: Step) => number,
): { readonly ordered: readonly Step[]; readonly left: readonly Step[] } {
  const waiting = new Map<Step, number>();
  const neededBy = new Map<Step, Step[]>();
  const ready = new Heap<Step>((one, other) => groupOf(one) - groupOf(other) || one.rank - other.rank);
  for (const step of steps) {
    waiting.set(step, step.needs.size);
    if (step.needs.size === 0) ready.push(step);
    for (const need of step.needs) {
      const dependents = neededBy.get(need);
      if (dependents) dependents.push(step);
      else neededBy.set(need, [step]);
    }
  }
  const ordered: Step[] = [];
  for (let step = ready.pop(); step; step = ready.pop()) {
    ordered.push(step);
    waiting.delete(step);
    for (const dependent of neededBy.get(step) ?? []) {
      const left = (waiting.get(dependent) ?? 0) - 1;
      waiting.set(dependent, left);
      if (left === 0) ready.push(dependent);
    }
  }
  return { ordered, left: [...waiting.keys()] };
}

/** Everything that any of `steps` needs, directly or through others, and they themselves. */
export function withNeeds(steps: Iterable<Step>): ReadonlySet<Step> {
  const found = new Set<Step>(steps);
  for (const step of found) for (const need of step.needs) found.add(need);
  return found;
}

/** A binary heap; of equals the one pushed first. */
class Heap<T> {
  readonly #items: { readonly item: T; readonly turn: number }[] = [];
  readonly #compare: (one: T, other: T) => number;
  #turn = 0;

  constructor(compare: (one: T, other: T) => number) {
    this.#compare = compare;
  }

  push(item: T): void {
    const items = this.#items;
    items.push({ item, turn: this.#turn++ });
    for (let at = items.length - 1; at > 0; ) {
      const parent = (at - 1) >> 1;
      if (!this.#isBefore(at, parent)) return;
      this.#swap(at, parent);
      at = parent;
    }
  }

  pop(): T | undefined {
    const items = this.#items;
    const first = items[0];
    const last = items.pop();
    if (!first || !last) return undefined;
    if (items.length > 0) {
      items[0] = last;
      this.#sink();
    }
    return first.item;
  }

  #sink(): void {
    const size = this.#items.length;
    for (let at = 0; ; ) {
      const left = 2 * at + 1;
      const right = left + 1;
      let least = at;
      if (left < size && this.#isBefore(left, least)) least = left;
      if (right < size && this.#isBefore(right, least)) least = right;
      if (least === at) return;
      this.#swap(at, least);
      at = least;
    }
  }

  #isBefore(one: number, other: number): boolean {
    const a = this.#items[one];
    const b = this.#items[other];
    return a !== undefined && b !== undefined && (this.#compare(a.item, b.item) || a.turn - b.turn) < 0;
  }

  #swap(one: number, other: number): void {
    const a = this.#items[one];
    const b = this.#items[other];
    if (!a || !b) return;
    this.#items[one] = b;
    this.#items[other] = a;
  }
}
