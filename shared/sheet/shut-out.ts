/** Who cannot get in between two entries of a plan, though they could before and will again. */
import type { Memory, Operation } from "../keypad/memory.ts";
import type { RelaySet } from "../keypad/model.ts";
import { slotKey } from "../keypad/slot-key.ts";
import type { Plan } from "../plan/plan.ts";

export interface ShutOut {
  /** A code or tag that opens before and after: as `code 48291` or `tag 8061261`. */
  readonly id: string;
  readonly relay?: RelaySet;
  /** Numbers of the entry that takes it out and of the one that writes it again. */
  readonly from: number;
  readonly until: number;
}

/** Whether the plan empties the whole memory at some point: a reset, `clear all`, a new length that clears what was stored. */
export function emptiesEverything(plan: Plan): boolean {
  if (plan.reset?.what === "everything") return true;
  return plan.sessions.some(session => session.entries.some(entry => clearsCodes(entry.operation, plan)));
}

/** Places that are emptied or overwritten before their code or tag is written again, in the order of the entries. */
export function shutOuts(plan: Plan): readonly ShutOut[] {
  const now = new Map<string, Held>();
  const count = new Map<string, number>();
  const wanted = new Set(placesOf(plan, plan.target).map(([, held]) => pairOf(held)));
  for (const [place, held] of placesOf(plan, plan.before)) {
    now.set(place, held);
    count.set(pairOf(held), (count.get(pairOf(held)) ?? 0) + 1);
  }
  const out = new Map<string, number>();
  const found: ShutOut[] = [];
  const remove = (place: string, n: number) => {
    const held = now.get(place);
    if (!held) return;
    now.delete(place);
    const left = (count.get(pairOf(held)) ?? 1) - 1;
    count.set(pairOf(held), left);
    if (left === 0 && wanted.has(pairOf(held))) out.set(pairOf(held), n);
  };
  const put = (place: string, held: Held, n: number) => {
    if (now.get(place)?.id === held.id && now.get(place)?.relay === held.relay) return;
    remove(place, n);
    now.set(place, held);
    const pair = pairOf(held);
    count.set(pair, (count.get(pair) ?? 0) + 1);
    const from = out.get(pair);
    if (from === undefined) return;
    out.delete(pair);
    found.push({ id: held.id, ...(held.relay === undefined ? {} : { relay: held.relay }), from, until: n });
  };
  const fires = new Map([...plan.target.slots.values()].map(slot => [slot.number, slot.fires]));
  for (const { n, operation } of plan.sessions.flatMap(session => session.entries)) step(operation, n, plan, fires, now, remove, put);
  return found;
}

interface Held {
  readonly id: string;
  /** Undefined: every relay. */
  readonly relay?: RelaySet;
}

function step(
  operation: Operation,
  n: number,
  plan: Plan,
  fires: ReadonlyMap<number | undefined, RelaySet | undefined>,
  now: ReadonlyMap<string, Held>,
  remove: (place: string, n: number) => void,
  put: (place: string, held: Held, n: number) => void,
): void {
  switch (operation.operation) {
    case "put code":
    case "put tag": {
      const code = operation.operation === "put code";
      const kind = code ? "code" : "tag";
      const id = code ? `code ${operation.code}` : `tag ${operation.tag}`;
      const relay = operation.relay ?? fires.get(operation.slot);
      const at = slotKey(plan.model, relay, operation.slot, operation);
      if (plan.model.slots.holds === "one") remove(`${code ? "tag" : "code"} ${at}`, n);
      put(`${kind} ${at}`, relay === undefined ? { id } : { id, relay }, n);
      return;
    }
    case "clear slot": {
      const at = slotKey(plan.model, operation.relay, operation.slot);
      remove(`code ${at}`, n);
      remove(`tag ${at}`, n);
      return;
    }
    case "clear code":
    case "clear tag": {
      const id = operation.operation === "clear code" ? `code ${operation.code}` : `tag ${operation.tag}`;
      for (const [place, held] of [...now])
        if (held.id === id && (operation.relay === undefined || held.relay === operation.relay)) remove(place, n);
      return;
    }
    case "set all-relay":
      put(`all-relay ${operation.slot ?? ""}`, { id: `code ${operation.code}` }, n);
      return;
    case "clear all-relay":
      remove(`all-relay ${operation.slot ?? ""}`, n);
      return;
    default:
      return;
  }
}

function placesOf(plan: Plan, memory: Memory): readonly (readonly [string, Held])[] {
  const places: (readonly [string, Held])[] = [];
  for (const slot of memory.slots.values()) {
    const relay = slot.fires === undefined ? {} : { relay: slot.fires };
    for (const kind of ["code", "tag"] as const) {
      if (slot[kind] === undefined) continue;
      const id = `${kind} ${slot[kind]}`;
      places.push([`${kind} ${slotKey(plan.model, slot.fires, slot.number, { [kind]: slot[kind] })}`, { id, ...relay }]);
    }
  }
  for (const [number, allRelay] of memory.allRelay)
    if (allRelay.code !== undefined) places.push([`all-relay ${number}`, { id: `code ${allRelay.code}` }]);
  return places;
}

function pairOf(held: Held): string {
  return `${held.relay ?? "*"} ${held.id}`;
}

function clearsCodes(operation: Operation, plan: Plan): boolean {
  if (operation.operation === "clear all") return true;
  if (plan.model.relength !== "clears") return false;
  if (operation.operation === "set length") return plan.before.codeLength !== undefined && plan.before.codeLength !== operation.digits;
  return (
    operation.operation === "set installer" &&
    plan.model.length === "follows installer code" &&
    plan.before.installer !== undefined &&
    plan.before.installer.length !== operation.code.length
  );
}
