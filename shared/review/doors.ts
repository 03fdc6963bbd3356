/** Who opens a door that they did not open, who no longer does, and who opens it with something else: told by the door recogniser. */
import { listed } from "../sheet/names.ts";
import { labelled } from "../sheet/visible.ts";
import type { Day, Holder, Keypad, Site } from "../site/site.ts";
import type { OpensBy, WayIn } from "../who/who.ts";
import { waysIn } from "../who/who.ts";
import type { Change } from "./change.ts";
import type { Pair } from "./match.ts";

type Means = ReadonlySet<OpensBy>;
/** By holder of either text, then by the door's label as it is now. */
type Opened = ReadonlyMap<Holder, ReadonlyMap<string, Means>>;

export function doorChanges(
  before: Site,
  after: Site,
  holders: readonly Pair<Holder>[],
  renamed: ReadonlyMap<string, string>,
  today: Day,
): readonly Change[] {
  const then = openedBy(waysIn(before, today), renamed);
  const now = openedBy(waysIn(after, today), new Map());
  return [
    ...[...renamed].map(
      ([was, is]): Change => ({
        kind: "door-renamed",
        doors: [is],
        text: `The door ${labelled(was)} is now called ${labelled(is)}.`,
      }),
    ),
    ...holders.flatMap(({ was, is }) => {
      const holder = is ?? was;
      return holder ? holderChanges(holder, (was && then.get(was)) ?? new Map(), (is && now.get(is)) ?? new Map()) : [];
    }),
  ];
}

function holderChanges(holder: Holder, then: ReadonlyMap<string, Means>, now: ReadonlyMap<string, Means>): readonly Change[] {
  const who = labelled(holder.label);
  const changes: Change[] = [];
  const say = (kind: Change["kind"], doors: readonly string[], text: string) => void changes.push({ kind, holder: holder.id, doors, text });

  for (const [means, doors] of grouped([...now].filter(([door]) => !then.has(door)).map(([door, by]) => [withWords(by), door])))
    say("opens", doors, `${who} opens ${listed(doors.map(labelled))}, ${means}.`);
  const lost = [...then.keys()].filter(door => !now.has(door));
  if (lost.length > 0) say("opens-no-longer", lost, `${who} no longer opens ${listed(lost.map(labelled))}.`);
  const otherwise = [...now].flatMap(([door, by]): readonly (readonly [string, string])[] => {
    const was = then.get(door);
    if (!was || (was.size === by.size && [...by].every(one => was.has(one)))) return [];
    const gone = [...was].filter(one => !by.has(one));
    return [[`${withWords(by)} now${gone.length === 0 ? "" : `, no longer ${withWords(new Set(gone))}`}`, door]];
  });
  for (const [words, doors] of grouped(otherwise)) say("opens-otherwise", doors, `${who} opens ${listed(doors.map(labelled))} ${words}.`);
  return changes;
}

function openedBy(ways: readonly WayIn[], renamed: ReadonlyMap<string, string>): Opened {
  const opened = new Map<Holder, Map<string, Set<OpensBy>>>();
  for (const { holder, door, by, after } of ways) {
    if (!holder || !after) continue;
    const doors = opened.get(holder) ?? new Map<string, Set<OpensBy>>();
    opened.set(holder, doors);
    const name = renamed.get(door) ?? door;
    doors.set(name, (doors.get(name) ?? new Set()).add(by));
  }
  return opened;
}

/** A relay of one keypad with another label: the old label is nowhere now, and the new one was nowhere before. */
export function renamedDoors(keypads: readonly Pair<Keypad>[]): ReadonlyMap<string, string> {
  const labelsOf = (side: "was" | "is") =>
    new Set(keypads.flatMap(pair => pair[side]?.relays.filter(({ spare }) => !spare).flatMap(({ label }) => label ?? []) ?? []));
  const [were, are] = [labelsOf("was"), labelsOf("is")];
  const renamed = new Map<string, string>();
  for (const { was, is } of keypads)
    for (const { set, label, spare } of was?.relays ?? []) {
      const next = is?.relays.find(relay => relay.set === set && !relay.spare)?.label;
      if (spare || label === undefined || next === undefined || next === label) continue;
      if (!are.has(label) && !were.has(next) && !renamed.has(label)) renamed.set(label, next);
    }
  return renamed;
}

function grouped(found: readonly (readonly [words: string, door: string])[]): ReadonlyMap<string, readonly string[]> {
  const groups = new Map<string, string[]>();
  for (const [words, door] of found) groups.set(words, [...(groups.get(words) ?? []), door]);
  return groups;
}

/** "with a code and a tag". */
function withWords(means: Means): string {
  const words: Record<OpensBy, string> = {
    code: "a code",
    tag: "a tag",
    "code and tag": "code and tag together",
    "all-relay code": "an all-relay code",
  };
  return `with ${listed([...means].map(by => words[by]))}`;
}
