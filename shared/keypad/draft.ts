/** A memory while it is being written: mutable, with the places of each code and tag at hand, so that a twin is found at once. */
import type { AllRelay, Digits, Memory, ReleaseTime, Slot, SlotKey, TagId } from "./memory.ts";
import type { RelaySet } from "./model.ts";

export interface Draft {
  installer: Digits | undefined;
  codeLength: number | undefined;
  readonly allRelay: Map<string, AllRelay>;
  readonly releases: Map<RelaySet, ReleaseTime | "unknown">;
  readonly settings: Map<string, number | "unknown">;
  /** Changed by `store` and `remove` only, which keep the two indexes true. */
  readonly slots: Map<SlotKey, Slot>;
  readonly codes: Map<Digits, Set<SlotKey>>;
  readonly tags: Map<TagId, Set<SlotKey>>;
}

/** A draft that starts as the memory; linear in its size. */
export function draftOf(memory: Memory): Draft {
  const draft: Draft = {
    installer: memory.installer,
    codeLength: memory.codeLength,
    allRelay: new Map(memory.allRelay),
    releases: new Map(memory.releases),
    settings: new Map(memory.settings),
    slots: new Map(),
    codes: new Map(),
    tags: new Map(),
  };
  for (const slot of memory.slots.values()) store(draft, slot);
  return draft;
}

/** The memory as it stands now; later changes of the draft do not reach it. */
export function freeze(draft: Draft): Memory {
  return {
    ...(draft.installer === undefined ? {} : { installer: draft.installer }),
    ...(draft.codeLength === undefined ? {} : { codeLength: draft.codeLength }),
    allRelay: new Map(draft.allRelay),
    releases: new Map(draft.releases),
    settings: new Map(draft.settings),
    slots: new Map(draft.slots),
  };
}

/** Writes a place; one that was there keeps its turn in the order typed. */
export function store(draft: Draft, slot: Slot): void {
  const before = draft.slots.get(slot.key);
  if (before) forget(draft, before);
  draft.slots.set(slot.key, slot);
  if (slot.code !== undefined) note(draft.codes, slot.code, slot.key);
  if (slot.tag !== undefined) note(draft.tags, slot.tag, slot.key);
}

/** Empties a place; nothing happens where it is empty. */
export function remove(draft: Draft, key: SlotKey): void {
  const before = draft.slots.get(key);
  if (!before) return;
  forget(draft, before);
  draft.slots.delete(key);
}

/** Empties every place; all-relay codes stay. */
export function removeAll(draft: Draft): void {
  draft.slots.clear();
  draft.codes.clear();
  draft.tags.clear();
}

function forget(draft: Draft, slot: Slot): void {
  if (slot.code !== undefined) strike(draft.codes, slot.code, slot.key);
  if (slot.tag !== undefined) strike(draft.tags, slot.tag, slot.key);
}

function note(index: Map<string, Set<SlotKey>>, content: string, key: SlotKey): void {
  const keys = index.get(content);
  if (keys) keys.add(key);
  else index.set(content, new Set([key]));
}

function strike(index: Map<string, Set<SlotKey>>, content: string, key: SlotKey): void {
  const keys = index.get(content);
  keys?.delete(key);
  if (keys?.size === 0) index.delete(content);
}
