/** Whether two memories are the same keypad, place for place. */
import type { AllRelay, Memory, Slot, SlotKey } from "./memory.ts";
import type { Model } from "./model.ts";

/**
 * The same installer code, code length, all-relay codes, releases, settings and places. The order typed does not count,
 * save where a model is given whose unnumbered memory lets the first of two twins fire: then the order of twins does.
 */
export function sameMemory(a: Memory, b: Memory, model?: Model): boolean {
  return (
    a.installer === b.installer &&
    a.codeLength === b.codeLength &&
    sameMap(a.allRelay, b.allRelay, sameAllRelay) &&
    sameMap(a.releases, b.releases, Object.is) &&
    sameMap(a.settings, b.settings, Object.is) &&
    sameMap(a.slots, b.slots, sameSlot) &&
    (model?.slots.addressing !== "unnumbered" || model.twins !== "first fires" || sameOrderOfTwins(a.slots, b.slots))
  );
}

/** The same content and relays. Whether both halves of a pair are needed is the model's matter, not the place's. */
export function sameSlot(a: Slot, b: Slot): boolean {
  return (
    a.fires === b.fires && a.number === b.number && a.code === b.code && a.tag === b.tag && (a.unknown ?? false) === (b.unknown ?? false)
  );
}

function sameAllRelay(a: AllRelay, b: AllRelay): boolean {
  return a.code === b.code && (a.unknown ?? false) === (b.unknown ?? false);
}

function sameMap<K, V>(a: ReadonlyMap<K, V>, b: ReadonlyMap<K, V>, same: (one: V, other: V) => boolean): boolean {
  if (a.size !== b.size) return false;
  for (const [key, value] of a) {
    const other = b.get(key);
    if (other === undefined || !same(value, other)) return false;
  }
  return true;
}

function sameOrderOfTwins(a: ReadonlyMap<SlotKey, Slot>, b: ReadonlyMap<SlotKey, Slot>): boolean {
  const [one, other] = [orders(a), orders(b)];
  for (const [content, order] of one) if (other.get(content)?.join() !== order.join()) return false;
  return one.size === other.size;
}

function orders(slots: ReadonlyMap<SlotKey, Slot>): Map<string, SlotKey[]> {
  const found = new Map<string, SlotKey[]>();
  for (const slot of slots.values()) {
    const content = slot.code ?? `tag:${slot.tag}`;
    const order = found.get(content);
    if (order) order.push(slot.key);
    else found.set(content, [slot.key]);
  }
  return found;
}
