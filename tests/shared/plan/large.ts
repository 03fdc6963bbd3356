/** Large keypads for tests and measurements: thousands of slots, half of them changed in every way. */
import type { Memory, Slot } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { memory, modelOf } from "./keypads.ts";

export function largeModel(rules: string): Model {
  return modelOf(`
    relays 1 = 4, 2 = 5
    slots 00001..30000 per relay
    codes 6 | 7 digits
    length follows installer code
    ${rules}
    release 1s..99s
    keys 0..9 B OK
    enter OK {installer} OK
    leave OK OK
    put code 7 {relay} {slot} {code} OK
    put tag 8 {relay} {slot} [present tag] OK
    clear slot 9 {relay} {slot} OK
    set installer 31 {code} {code} OK
    open code {code}
    open tag [present tag]
    factory { installer code 975310 }`);
}

/** Of every ten slots five stay; of the others one is emptied, one has a new code, the rest pass their codes and tags on. */
export function largeMemories(model: Model, count: number): { readonly before: Memory; readonly wanted: Memory } {
  const base = memory(model, "installer code 975310");
  const slot = (number: number, content: string): Slot => ({
    key: `1/${number}`,
    fires: "1",
    number,
    ...(number % 4 === 0 ? { tag: content } : { code: content }),
  });
  const content = (number: number) => String(100_000 + number * 7);
  const before = new Map<string, Slot>();
  const wanted = new Map<string, Slot>();
  for (let number = 1; number <= count; number++) {
    const was = slot(number, content(number));
    before.set(was.key, was);
    const kind = number % 10;
    if (kind === 1) continue;
    const is =
      kind % 2 === 0
        ? was
        : kind === 3
          ? slot(number, String(500_000 + number))
          : slot(number, content(number + 20 > count ? (number + 20) % count : number + 20));
    wanted.set(is.key, is);
  }
  return { before: { ...base, slots: before }, wanted: { ...base, slots: wanted } };
}
