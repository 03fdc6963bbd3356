/** Who opens what: at each door by which keypad, with what, now (what is fitted) and after the next visit (what the text wants). */
import { doorOf } from "../keypad/door.ts";
import type { Digits, Memory, Slot } from "../keypad/memory.ts";
import type { Model, RelaySet } from "../keypad/model.ts";
import type { Stored } from "../keypad/open-strings.ts";
import { openStrings } from "../keypad/open-strings.ts";
import { relaysOf } from "../keypad/relay-set.ts";
import { unknownPlaces } from "../keypad/unknown-places.ts";
import { startOf } from "../plan/start.ts";
import { wantedMemory } from "../plan/wanted.ts";
import type { Names } from "../sheet/names.ts";
import { namesOf } from "../sheet/names.ts";
import type { Credential, Day, Holder, Keypad, Site } from "../site/site.ts";

export type OpensBy = "code" | "tag" | "code and tag" | "all-relay code";

/** One way in. Never holds a code. */
export interface WayIn {
  /** The label of the relay, or `relay 2 of Lane gate` where it has none. */
  readonly door: string;
  readonly keypad: Keypad;
  /** A single relay's number. */
  readonly relay: string;
  /** Undefined: fitted, but the text gives it to nobody. */
  readonly holder?: Holder;
  /** `u3.yard`; undefined with the holder. */
  readonly credential?: string;
  readonly by: OpensBy;
  readonly until?: Day;
  /** Opens with what is fitted. "unknown": the record does not say what the keypad holds, or not in a place that may release this door. */
  readonly now: "opens" | "no" | "unknown";
  /** Opens once what the text wants has been typed. */
  readonly after: boolean;
  /** The last day has passed, and yet it opens: a keypad has no calendar. */
  readonly lapsed: boolean;
  /** The tag cannot be presented any more. */
  readonly lost: boolean;
}

/**
 * Every way in, door by door in the order of the text, holders in theirs. Told by the door recogniser: what is shadowed, asleep or loses to a twin opens nothing and is left out.
 */
export function waysIn(site: Site, today: Day): readonly WayIn[] {
  const ways: WayIn[] = [];
  for (const keypad of site.keypads.values()) {
    const { model } = keypad;
    if (!model) continue;
    const started = startOf(model, keypad, "fitted");
    const before = "cannot" in started ? undefined : started.before;
    const unknown = before ? unknownAt(keypad, before) : () => true;
    const target = wantedMemory(keypad, before ?? model.factory);
    const names = namesOf(site, keypad, model, before, target);
    const shared = sharersOf(keypad);
    const openings = (memory: Memory) => openingsOf(model, memory, names, shared).map(opening => [opening.id, opening] as const);
    const now = new Map(before ? openings(before) : []);
    const after = new Map(openings(target));
    const wired = new Map(keypad.relays.filter(relay => !relay.spare).map(relay => [relay.set, relay]));
    for (const [id, opening] of new Map([...after, ...now])) {
      const { credential, relay, by } = opening;
      const known = keypad.relays.find(one => one.set === relay);
      // A relay with nothing wired to it opens nothing, whatever fires it.
      if (known?.spare) continue;
      const until = credential?.until;
      const open = now.has(id);
      ways.push({
        door: wired.get(relay)?.label ?? `relay ${relay} of ${keypad.label}`,
        keypad,
        relay,
        ...(credential ? { holder: credential.holder, credential: credential.path } : {}),
        by,
        ...(until === undefined ? {} : { until }),
        now: open ? "opens" : unknown(relay, by) ? "unknown" : "no",
        after: after.has(id),
        lapsed: until !== undefined && until < today,
        lost: credential?.lost ?? false,
      });
    }
  }
  return inOrder(site, ways);
}

/** Whether a place that nobody can tell the content of may hold what releases a relay. */
function unknownAt({ fitted }: Keypad, before: Memory): (relay: string, by: OpensBy) => boolean {
  const inPlace = unknownPlaces(before);
  const allRelay = fitted?.knows === "part" || [...before.allRelay.values()].some(one => one.unknown);
  return (relay, by) => fitted?.knows === "nothing" || (by === "all-relay code" ? allRelay : inPlace(relay));
}

interface Opening {
  readonly id: string;
  readonly relay: string;
  readonly by: OpensBy;
  readonly credential?: Credential;
}

/** What fires which relay in one memory; `id` is the same in another memory for the same thing keyed at the same relay. */
function openingsOf(model: Model, memory: Memory, names: Names, sharers: Sharers): readonly Opening[] {
  const asleep = new Set(doorOf(model, memory).asleep.map(({ stored }) => storedKey(stored)));
  const openings: Opening[] = [];
  for (const { stored, fires, symbols } of openStrings(model, memory).strings) {
    if (stored.is === "enter" || fires === undefined || asleep.has(storedKey(stored))) continue;
    const { by, credential } = whose(stored, fires, memory, names);
    // However many ways there are to key an all-relay code at one door (alone, or as one of a set), it is one way in.
    const what = stored.is === "all-relay" ? allRelayCode(stored, memory) : symbols.join(" ");
    for (const who of credential ? sharers(credential, by) : [undefined]) {
      for (const relay of relaysOf(fires))
        openings.push({ id: `${relay} ${by} ${what} ${who?.path ?? ""}`, relay, by, ...(who ? { credential: who } : {}) });
    }
  }
  return openings;
}

/** Everybody whom the text gives the same code or tag at this keypad, for the same use. */
type Sharers = (credential: Credential, by: OpensBy) => readonly Credential[];

function sharersOf(keypad: Keypad): Sharers {
  const contentOf = ({ kind, digits, tag }: Credential) => `${kind} ${digits ?? tag ?? ""}`;
  const listed = (all: readonly (Credential | undefined)[]) => {
    const lists = new Map<string, Credential[]>();
    for (const one of new Set(all)) if (one) lists.set(contentOf(one), [...(lists.get(contentOf(one)) ?? []), one]);
    return lists;
  };
  const inSlots = listed(keypad.placements.flatMap(({ held }) => held.map(use => use.credential)));
  const allRelay = listed(keypad.allRelay.map(({ held }) => held?.credential));
  return (credential, by) => {
    if (by === "code and tag") return [credential];
    const others = (by === "all-relay code" ? allRelay : inSlots).get(contentOf(credential)) ?? [];
    return others.includes(credential) ? others : [credential, ...others];
  };
}

function storedKey(stored: Stored): string {
  return stored.is === "slot"
    ? `slot ${stored.key} ${stored.half}`
    : stored.is === "all-relay"
      ? `all ${stored.number ?? ""} ${stored.relay}`
      : "enter";
}

function allRelayCode(stored: Stored & { readonly is: "all-relay" }, memory: Memory): Digits | undefined {
  return memory.allRelay.get(stored.number === undefined ? "" : String(stored.number))?.code;
}

function whose(
  stored: Stored,
  fires: RelaySet,
  memory: Memory,
  names: Names,
): { readonly by: OpensBy; readonly credential: Credential | undefined } {
  if (stored.is === "all-relay") {
    const code = allRelayCode(stored, memory);
    return { by: "all-relay code", credential: code === undefined ? undefined : names.code(code, undefined, stored.number) };
  }
  const slot: Slot | undefined = stored.is === "slot" ? memory.slots.get(stored.key) : undefined;
  const ofCode = slot?.code === undefined ? undefined : names.code(slot.code, fires, slot.number);
  const ofTag = slot?.tag === undefined ? undefined : names.tag(slot.tag, fires, slot.number);
  if (stored.is === "slot" && stored.half === "both") return { by: "code and tag", credential: ofCode ?? ofTag };
  return stored.is === "slot" && stored.half === "tag" ? { by: "tag", credential: ofTag } : { by: "code", credential: ofCode };
}

/** Doors as the text names them first, holders in the order of the text, what nobody in the text has last. */
function inOrder(site: Site, ways: readonly WayIn[]): readonly WayIn[] {
  const doors = new Map<string, number>();
  for (const keypad of site.keypads.values()) {
    for (const relay of keypad.relays) {
      const door = relay.label ?? `relay ${relay.set} of ${keypad.label}`;
      if (!doors.has(door)) doors.set(door, doors.size);
    }
  }
  const holders = new Map([...site.holders.keys()].map((id, index) => [id, index]));
  const doorRank = (way: WayIn) => doors.get(way.door) ?? doors.size;
  const holderRank = (way: WayIn) => (way.holder ? (holders.get(way.holder.id) ?? holders.size) : holders.size + 1);
  return [...ways].sort(
    (one, other) =>
      doorRank(one) - doorRank(other) ||
      holderRank(one) - holderRank(other) ||
      (one.credential ?? "").localeCompare(other.credential ?? "", "en") ||
      one.relay.localeCompare(other.relay, "en", { numeric: true }),
  );
}

/** Only one door, by its label; only one holder, by id. */
export function narrowed(ways: readonly WayIn[], only: { readonly door?: string; readonly holder?: string }): readonly WayIn[] {
  return ways.filter(
    way => (only.door === undefined || way.door === only.door) && (only.holder === undefined || way.holder?.id === only.holder),
  );
}
