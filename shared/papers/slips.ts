/** A slip for each holder: what to key or present, at which door, from which visit, until when, and whom to call. Nobody else's code is on it. */
import { unknownPlaces } from "../keypad/unknown-places.ts";
import { credentialWords, listed } from "../sheet/names.ts";
import { shownGroups } from "../sheet/show.ts";
import type { Trial } from "../sheet/tries.ts";
import { trialsOf } from "../sheet/tries.ts";
import { labelled, visible } from "../sheet/visible.ts";
import type { Credential, Holder, Site } from "../site/site.ts";
import type { Paper, PaperKind, PaperOptions, Part } from "./paper.ts";
import type { KeypadStates } from "./places.ts";
import { statesOf } from "./places.ts";
import { callParts, doorSaid, releaseWords, says, siteWords } from "./words.ts";

export const slips: PaperKind = {
  name: "slips",
  make(site, options) {
    const ways = waysOf(site, options);
    const asked = options.holders === undefined ? undefined : new Set(options.holders);
    return [...site.holders.values()].flatMap(holder => {
      const own = ways.get(holder) ?? [];
      return own.length === 0 || (asked && !asked.has(holder.id)) ? [] : [slipOf(site, holder, own, options)];
    });
  },
};

interface Way {
  readonly trial: Trial;
  readonly states: KeypadStates;
  /** Single relays that something is wired to. */
  readonly before: readonly string[];
  readonly after: readonly string[];
}

/** By the holder who is to have it: of a pair of two holders, the one whose code it is. */
function waysOf(site: Site, { keypads = [...site.keypads.values()] }: PaperOptions): ReadonlyMap<Holder, readonly Way[]> {
  const found = new Map<Holder, Way[]>();
  for (const keypad of keypads) {
    const states = statesOf(site, keypad);
    if (!states) continue;
    const { model, before, after, names } = states;
    const wired = new Set(keypad.relays.filter(relay => !relay.spare).flatMap(({ set }) => set.split("+")));
    const real = (relays: readonly string[]) => relays.filter(relay => wired.has(relay));
    for (const trial of trialsOf(site, keypad, { model, target: after }, names, [before])) {
      const holder = trial.credentials[0]?.holder;
      const way: Way = { trial, states, before: real(trial.opensBefore), after: real(trial.opensAfter) };
      if (!holder || (way.before.length === 0 && way.after.length === 0)) continue;
      const own = found.get(holder);
      if (own) own.push(way);
      else found.set(holder, [way]);
    }
  }
  return found;
}

function slipOf(site: Site, holder: Holder, ways: readonly Way[], options: PaperOptions): Paper {
  return {
    file: fileOf(site, holder),
    title: "Slip",
    site: siteWords(site),
    about: labelled(holder.label),
    date: options.today,
    parts: [
      ...ways.map(way => wayPart(way, options)),
      ...cautions(site, ways),
      { is: "words", text: "Keep this to yourself: whoever has the code or the tag gets in. Say at once when a tag is lost." },
      ...callParts(site, "If a door does not open, or a tag is lost"),
    ],
  };
}

/** A holder's id names the file, unless someone made it out of a code. */
function fileOf(site: Site, { id }: Holder): string {
  const codes = [...site.holders.values()].flatMap(holder => holder.credentials.flatMap(({ digits }) => digits ?? []));
  return codes.some(code => id.includes(code)) ? `slip-${[...site.holders.keys()].indexOf(id) + 1}` : `slip-${id}`;
}

function wayPart({ trial, states, before, after }: Way, { hideCodes, today }: PaperOptions): Part {
  const { names, keypad } = states;
  const opens = after.length > 0 ? after : before;
  const says = [
    ...trial.credentials
      .map(credentialWords)
      .slice(1)
      .map(words => `Together with ${words}.`),
    fromWords(states, before, after),
    ...untilWords(trial.credentials, today),
    ...openWords(states, opens),
  ];
  const door = visible(names.doors(opens));
  return {
    is: "way",
    door: door === visible(keypad.label) ? door : `${door}, at the keypad ${visible(keypad.label)}`,
    keys: shownGroups(trial.groups, { hideCodes, showInstaller: false }),
    says,
  };
}

function fromWords({ knows, date, names, before: memory }: KeypadStates, before: readonly string[], after: readonly string[]): string {
  if (knows === "nothing" || (before.length === 0 && after.some(unknownPlaces(memory))))
    return "From the next visit on; whether it opens now is not known.";
  if (before.join() === after.join()) return date === undefined ? "Opens now." : `Opens now, fitted ${date}.`;
  if (after.length === 0) return "Until the next visit; after it, this opens nothing.";
  if (before.length === 0) return "From the next visit on; until then it opens nothing.";
  return `Until the next visit it opens ${names.doors(before)}.`;
}

function untilWords(credentials: readonly Credential[], today: string): readonly string[] {
  const days = credentials.flatMap(({ until }) => until ?? []).sort();
  const [first] = days;
  if (first === undefined) return [];
  return [first < today ? `It was meant until ${first}.` : `It is meant until ${first}, that day included.`];
}

function openWords({ after, names }: KeypadStates, relays: readonly string[]): readonly string[] {
  const times = relays.flatMap(relay => {
    const words = releaseWords(after.releases.get(relay));
    return words === undefined ? [] : [{ door: names.relay(relay), words }];
  });
  if (new Set(times.map(({ words }) => words)).size === 1 && times.length === relays.length) return [`Stays open ${times[0]?.words}.`];
  return times.map(({ door, words }) => `${door} stays open ${words}.`);
}

/** Said once, for the doors of this slip whose gate moves near whoever keys. */
function cautions(site: Site, ways: readonly Way[]): readonly Part[] {
  const moving = new Set<string>();
  for (const { states, before, after } of ways)
    for (const relay of [...before, ...after]) {
      const label = states.keypad.relays.find(({ set }) => set.split("+").includes(relay))?.label;
      if (label !== undefined && says(doorSaid(site, label), "near-people")) moving.add(labelled(label));
    }
  if (moving.size === 0) return [];
  return [{ is: "caution", text: `${listed([...moving])}: moving parts within reach of the keypad. Stand clear before you key.` }];
}
