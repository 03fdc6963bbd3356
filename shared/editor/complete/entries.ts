/** What can be placed on a relay: the next free slot first, then whoever is not on the relay yet. */
import type { RelayDecl } from "../../../grammar/tree.ts";
import type { Model, SlotKind } from "../../keypad/model.ts";
import { isNumbered, slotKey } from "../../keypad/slot-key.ts";
import { slotText } from "../../keypad/slot-text.ts";
import { labelled } from "../../sheet/visible.ts";
import type { Credential, Holder, Keypad, KeypadRelay, Site } from "../../site/site.ts";
import type { Cursor } from "./cursor.ts";
import type { Suggestion } from "./suggestion.ts";

/** How an entry names a code or a tag, and whose it is. */
interface Way {
  readonly path: string;
  readonly credential: Credential;
  /** The relay already has it. */
  readonly placed: boolean;
  /** The relay already has something of this holder. */
  readonly known: boolean;
}

export function entrySuggestions(site: Site, keypad: Keypad | undefined, node: RelayDecl, cursor: Cursor): readonly Suggestion[] {
  const relay = keypad?.relays.find(each => each.node === node);
  const held = /(?:^|\s)([A-Za-z][A-Za-z0-9_-]*)\.$/.exec(cursor.line)?.[1];
  if (held !== undefined) return credentialsOf(site, held, relay);
  const ways = waysOf(site, relay);
  const model = keypad?.model;

  // Behind one holder, its other half.
  const pairs = /(?:^\d+\s+|^)([A-Za-z][\w-]*)(?:\.[\w-]+)?\s+(or|with)\s+$/.exec(cursor.line);
  if (pairs) return ways.filter(({ credential }) => credential.holder.id === pairs[1]).map((way, index) => wayItem(way, index));
  if (/^(?:\d+\s+)?[A-Za-z][\w-]*(?:\.[\w-]+)?\s+$/.test(cursor.line)) return model ? pairWords(model) : [];

  if (/^\d+\s+$/.test(cursor.line) || (cursor.isFirst && model && !isNumbered(model))) return ways.map((way, index) => wayItem(way, index));
  if (!cursor.isFirst || !model || !relay) return [];
  const slot = { codes: nextSlot(model, relay, cursor, "codes"), tags: nextSlot(model, relay, cursor, "tags") };
  const next = slot.codes ?? slot.tags;
  const entries = ways.flatMap((way, index): Suggestion[] => {
    const number = slot[way.credential.kind === "code" ? "codes" : "tags"];
    return number === undefined || way.placed ? [] : [{ ...wayItem(way, index), label: `${number} ${way.path}`, kind: "slot" }];
  });
  const [first] = entries;
  const number: Suggestion[] =
    next === undefined ? [] : [{ kind: "slot", label: next, detail: "next free slot", text: `${next} `, rank: 10 }];
  // The entry that is likeliest to be meant, whole; then its number alone.
  return [...(first ? [{ ...first, rank: 0 }] : []), ...number, ...entries.slice(1)];
}

/** Everything that can be placed, what is not there yet first: holders new to the relay, others' other credentials, the rest. */
function waysOf(site: Site, relay: KeypadRelay | undefined): readonly Way[] {
  const placed = new Set(relay?.placements.flatMap(({ held }) => held.flatMap(({ credential }) => credential ?? [])) ?? []);
  const known = new Set([...placed].map(({ holder }) => holder));
  const ways = [...site.holders.values()].flatMap(holder =>
    holder.credentials
      .filter(({ lost, kind, digits, tag }) => !lost && (kind === "code" ? digits !== undefined : tag !== undefined))
      .map(credential => ({ path: pathOf(holder, credential), credential, placed: placed.has(credential), known: known.has(holder) })),
  );
  return ways.sort((one, other) => order(one) - order(other));
}

function order({ placed, known }: Way): number {
  return placed ? 2 : known ? 1 : 0;
}

/** `u1` where the holder alone stands for it. */
function pathOf(holder: Holder, credential: Credential): string {
  if (credential.name !== undefined) return `${holder.id}.${credential.name}`;
  const hasCode = holder.credentials.some(({ kind, name }) => kind === "code" && name === undefined);
  return credential.kind === "code" || !hasCode ? holder.id : `${holder.id}.tag`;
}

function wayItem({ path, credential, placed, known }: Way, index: number): Suggestion {
  const { holder, kind, name, mark } = credential;
  const what = [kind, name, mark === undefined ? undefined : `(${labelled(mark)})`].filter(Boolean).join(" ");
  return {
    kind: path === holder.id ? "holder" : "credential",
    label: path,
    detail: `${labelled(holder.label)}: ${what}${placed ? ", already on this relay" : ""}`,
    rank: 20 + (placed ? 2 : known ? 1 : 0) * 10_000 + index,
    about: name === undefined ? { what: "holder", name: holder.id } : { what: "credential", holder: holder.id, name },
  };
}

function credentialsOf(site: Site, id: string, relay: KeypadRelay | undefined): readonly Suggestion[] {
  return waysOf(site, relay)
    .filter(({ credential }) => credential.holder.id === id)
    .map((way, index) => ({ ...wayItem(way, index), kind: "credential", label: way.credential.name ?? way.credential.kind }));
}

function pairWords({ slots }: Model): readonly Suggestion[] {
  const word = slots.holds === "code or tag" ? "or" : slots.holds === "code with tag" ? "with" : undefined;
  return word === undefined ? [] : [{ kind: "keyword", label: word, text: `${word} `, rank: 0, about: { what: "word", name: word } }];
}

/** The first free slot behind the entry above the cursor, else the first free one, as it is typed. */
function nextSlot(model: Model, relay: KeypadRelay, cursor: Cursor, kind: SlotKind): string | undefined {
  if (!isNumbered(model)) return undefined;
  const { keypad, set, placements } = relay;
  const typed = placements.find(({ node }) => node.start <= cursor.word.start && cursor.word.start <= node.end);
  const taken = new Set<string>();
  for (const other of keypad.placements)
    if (other.slot !== undefined && other !== typed) taken.add(slotKey(model, other.relay.set, other.slot));
  const above = placements.filter(({ node }) => node.end < cursor.word.start).at(-1)?.slot ?? -1;
  const bands = model.slots.bands.filter(({ kept }) => kept === undefined || kept === kind);
  const free = (least: number): number | undefined => {
    for (const { from, to } of bands)
      for (let slot = Math.max(from, least); slot <= to; slot++) if (!taken.has(slotKey(model, set, slot))) return slot;
    return undefined;
  };
  const slot = free(above + 1) ?? free(0);
  return slot === undefined ? undefined : slotText(model, slot);
}
