/**
 * The cheapest way from one memory to another, found by trying everything: Dijkstra over memories, straight from the words of the
 * design. It shares the keypad's own rules with the planner (what an entry does, what opens), and nothing of its reasoning.
 */
import { apply } from "../../../shared/keypad/apply.ts";
import { doorOf } from "../../../shared/keypad/door.ts";
import { draftOf, freeze } from "../../../shared/keypad/draft.ts";
import { cannotEncode, encode } from "../../../shared/keypad/encode.ts";
import type { Memory, Operation } from "../../../shared/keypad/memory.ts";
import { sameMemory } from "../../../shared/keypad/memory-equal.ts";
import type { Model } from "../../../shared/keypad/model.ts";

/** Fewest tags presented, then fewest entries, then fewest keys. */
export interface Cost {
  readonly tags: number;
  readonly entries: number;
  readonly keys: number;
}

export function compareCosts(one: Cost, other: Cost): number {
  return one.tags - other.tags || one.entries - other.entries || one.keys - other.keys;
}

export function costOf(model: Model, operations: readonly Operation[], installer: string): Cost {
  let cost: Cost = { tags: 0, entries: 0, keys: 0 };
  for (const operation of operations) cost = plus(cost, effort(model, operation, installer));
  return cost;
}

/** Undefined: there is no way that is safe after every entry. */
export function shortest(
  model: Model,
  before: Memory,
  wanted: Memory,
): { readonly cost: Cost; readonly operations: readonly Operation[] } | undefined {
  const allowed = pairs(model, before);
  for (const pair of pairs(model, wanted)) allowed.add(pair);
  const operations = candidates(model, before, wanted).filter(
    operation => cannotEncode(model, operation, { installer: "11" }) === undefined,
  );
  const open: { memory: Memory; cost: Cost; path: readonly Operation[] }[] = [
    { memory: before, cost: { tags: 0, entries: 0, keys: 0 }, path: [] },
  ];
  const done = new Set<string>();
  while (open.length > 0) {
    let least = 0;
    open.forEach((node, at) => {
      if (compareCosts(node.cost, open[least]?.cost ?? node.cost) < 0) least = at;
    });
    const [node] = open.splice(least, 1);
    if (!node) break;
    const key = keyOf(node.memory);
    if (done.has(key)) continue;
    done.add(key);
    if (!isSafe(model, node.memory, allowed)) continue;
    if (sameMemory(node.memory, wanted, model)) return { cost: node.cost, operations: node.path };
    for (const operation of operations) {
      const next = after(model, node.memory, operation);
      if (!next || done.has(keyOf(next))) continue;
      open.push({
        memory: next,
        cost: plus(node.cost, effort(model, operation, node.memory.installer ?? "")),
        path: [...node.path, operation],
      });
    }
  }
  return undefined;
}

/** Undefined where the keypad refuses it. */
export function after(model: Model, memory: Memory, operation: Operation): Memory | undefined {
  // A code of a length that is not in force is not even read.
  if ((operation.operation === "clear code" || operation.operation === "clear all-relay") && operation.code !== undefined) {
    const readable = apply(model, draftOf({ ...memory, slots: new Map(), allRelay: new Map() }), {
      operation: "put code",
      relay: "1",
      slot: 1,
      code: operation.code,
    });
    if (readable?.kind === "unknown-keys" && model.operations.has("put code")) return undefined;
  }
  const draft = draftOf(memory);
  return apply(model, draft, operation) ? undefined : freeze(draft);
}

export function isSafe(model: Model, memory: Memory, allowed: ReadonlySet<string>): boolean {
  const door = doorOf(model, memory);
  if (door.blocksEnter) return false;
  for (const [text, relays] of door.opens) if (!relays.every(relay => allowed.has(`${text}>${relay}`))) return false;
  return true;
}

export function pairs(model: Model, memory: Memory): Set<string> {
  return new Set([...doorOf(model, memory).opens].flatMap(([text, relays]) => relays.map(relay => `${text}>${relay}`)));
}

/** What the text wants, where it wants it, and every way to clear. */
function candidates(model: Model, before: Memory, wanted: Memory): readonly Operation[] {
  const found: Operation[] = [];
  const fields = (name: Operation["operation"], relay: string | undefined, slot: number | undefined) => {
    const names = new Set(model.operations.get(name as "put code")?.template.flatMap(one => (one.kind === "field" ? [one.name.text] : [])));
    return {
      ...(relay !== undefined && names.has("relay") ? { relay } : {}),
      ...(slot !== undefined && names.has("slot") ? { slot } : {}),
    };
  };
  for (const { fires, number, code, tag } of wanted.slots.values()) {
    if (code !== undefined) found.push({ operation: "put code", ...fields("put code", fires, number), code });
    if (tag !== undefined) found.push({ operation: "put tag", ...fields("put tag", fires, number), tag });
  }
  for (const { number, code } of wanted.allRelay.values())
    if (code !== undefined) found.push({ operation: "set all-relay", ...fields("set all-relay", undefined, number), code });
  for (const { fires, number, code, tag } of [...before.slots.values(), ...wanted.slots.values()]) {
    if (model.slots.addressing !== "unnumbered") found.push({ operation: "clear slot", ...fields("clear slot", fires, number) });
    if (code !== undefined) found.push({ operation: "clear code", ...fields("clear code", fires, undefined), code });
    if (tag !== undefined) found.push({ operation: "clear tag", ...fields("clear tag", fires, undefined), tag });
  }
  for (const { number, code } of [...before.allRelay.values(), ...wanted.allRelay.values()]) {
    found.push({ operation: "clear all-relay", ...fields("clear all-relay", undefined, number) });
    if (code !== undefined) found.push({ operation: "clear code", ...fields("clear code", undefined, undefined), code });
  }
  if (wanted.installer !== undefined && wanted.installer !== before.installer)
    found.push({ operation: "set installer", code: wanted.installer });
  if (wanted.codeLength !== undefined && wanted.codeLength !== before.codeLength)
    found.push({ operation: "set length", digits: wanted.codeLength });
  for (const [relay, release] of wanted.releases)
    if (release !== "unknown" && before.releases.get(relay) !== release) found.push({ operation: "set release", relay, release });
  const unique = new Map(
    found.filter(({ operation }) => model.operations.has(operation as "put code")).map(operation => [JSON.stringify(operation), operation]),
  );
  return [...unique.values()];
}

function effort(model: Model, operation: Operation, installer: string): Cost {
  const acts = encode(model, operation, { installer }).flatMap(group => group.acts);
  return {
    tags: acts.filter(act => "hand" in act && act.tag !== undefined).length,
    entries: 1,
    keys: acts.filter(act => "press" in act).length,
  };
}

function plus(one: Cost, other: Cost): Cost {
  return { tags: one.tags + other.tags, entries: one.entries + other.entries, keys: one.keys + other.keys };
}

function keyOf(memory: Memory): string {
  const slots = [...memory.slots.values()].map(({ key, fires, code, tag }) => [key, fires, code, tag].join("|"));
  return [
    memory.installer,
    memory.codeLength,
    [...memory.allRelay].map(([key, { code }]) => `${key}=${code}`).sort(),
    slots.sort(),
    [...memory.releases].sort(),
  ].join(" ; ");
}
