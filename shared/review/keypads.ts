/** What changes at a keypad beside who opens what: its model, installer code, times, settings, places, its record. */
import type { Memory } from "../keypad/memory.ts";
import { slotText } from "../keypad/slot-text.ts";
import { releaseWords } from "../papers/words.ts";
import { credentialWords } from "../sheet/names.ts";
import { labelled } from "../sheet/visible.ts";
import type { Credential, Holder, Keypad, Site } from "../site/site.ts";
import type { Change } from "./change.ts";
import { mostListed } from "./change.ts";
import { declared } from "./declared.ts";
import type { Pair } from "./match.ts";
import { credentialPairs } from "./match.ts";

export function keypadChanges(
  before: Site,
  after: Site,
  keypads: readonly Pair<Keypad>[],
  holders: readonly Pair<Holder>[],
): readonly Change[] {
  return keypads.flatMap(({ was, is }): readonly Change[] => {
    if (!was && is) return [{ kind: "keypad-new", keypad: is.id, text: `${named(is)} is new.` }];
    if (was && !is)
      return [{ kind: "keypad-gone", keypad: was.id, text: `${named(was)} is no longer in the text; what is fitted there still opens.` }];
    return was && is
      ? [
          ...names(was, is),
          ...facts(was, is).map((text): Change => ({ kind: "keypad", keypad: is.id, text })),
          ...modelChanges(before, after, was, is),
          ...moves(was, is, holders),
          ...records(was, is),
        ]
      : [];
  });
}

/** "Lane gate (gate)". */
export function named({ id, label }: Keypad): string {
  return `${labelled(label)} (${id})`;
}

function names(was: Keypad, is: Keypad): readonly Change[] {
  if (was.id === is.id && was.label === is.label) return [];
  return [{ kind: "keypad-renamed", keypad: is.id, text: `The keypad ${named(was)} is now called ${named(is)}.` }];
}

function facts(was: Keypad, is: Keypad): readonly string[] {
  const at = labelled(is.label);
  const found: string[] = [];
  const installer = ({ installer: said }: Keypad) => said?.digits ?? said?.held?.credential?.digits;
  if (installer(was) !== installer(is)) found.push(`${at} has a new installer code.`);
  if (was.codeLength !== is.codeLength && is.codeLength !== undefined) found.push(`Codes at ${at} are ${is.codeLength} digits long now.`);
  const releases = firsts(was.relays, ({ set }) => set);
  for (const relay of firsts(is.relays, ({ set }) => set).values()) {
    const door = relay.label === undefined ? `Relay ${relay.set} of ${at}` : labelled(relay.label);
    const old = releases.get(relay.set);
    const [then, now] = [releaseWords(old?.release), releaseWords(relay.release)];
    if (now !== undefined && now !== then)
      found.push(`${door} stays open ${relay.release === "toggle" ? "" : "for "}${now}${then === undefined ? "" : `, before: ${then}`}.`);
    if (relay.spare !== (old?.spare ?? relay.spare))
      found.push(
        relay.spare ? `Nothing is wired to relay ${relay.set} of ${at} any more.` : `Relay ${relay.set} of ${at} is no longer spare.`,
      );
    if (relay.noCodes !== (old?.noCodes ?? relay.noCodes))
      found.push(relay.noCodes ? `${door} is opened by no code any more.` : `${door} is opened by codes again.`);
  }
  const values = firsts(was.settings, ({ label }) => label);
  for (const { label, value } of firsts(is.settings, one => one.label).values()) {
    const old = values.get(label)?.value;
    if (value !== undefined && value !== old)
      found.push(`The setting "${labelled(label)}" of ${at} is ${value}${old === undefined ? "" : `, before: ${old}`}.`);
  }
  return found;
}

/** Of what is said twice, the first. */
function firsts<T>(all: readonly T[], keyOf: (one: T) => string): ReadonlyMap<string, T> {
  const found = new Map<string, T>();
  for (const one of all) if (!found.has(keyOf(one))) found.set(keyOf(one), one);
  return found;
}

function modelChanges(before: Site, after: Site, was: Keypad, is: Keypad): readonly Change[] {
  const about = { kind: "keypad", keypad: is.id } as const;
  const at = labelled(is.label);
  const [old, next] = [was.node.model?.text, is.node.model?.text];
  if (old !== next) return [{ ...about, text: `${at} is a ${next ?? "keypad of no model"} now, before: ${old ?? "no model"}.` }];
  const [then, now] = [before, after].map(site =>
    site.modelNodes.flatMap(({ file, node }) => (node.name?.text === next ? [declared(site, file, node)] : [])).join("\n"),
  );
  return then === now ? [] : [{ ...about, text: `The model of ${at}, ${next}, says something else: its entries may take other keys.` }];
}

/** Codes and tags that open what they opened, from another slot. */
function moves(was: Keypad, is: Keypad, holders: readonly Pair<Holder>[]): readonly Change[] {
  const partner = new Map<Credential, Credential>();
  for (const pair of holders) for (const { was: old, is: next } of credentialPairs(pair)) if (old && next) partner.set(old, next);
  const slotsOf = (keypad: Keypad, as: (credential: Credential) => Credential | undefined) => {
    const slots = new Map<Credential, Map<string, number[]>>();
    for (const { relay, slot, held } of keypad.placements)
      for (const { credential } of held) {
        const own = credential && as(credential);
        if (!own || slot === undefined) continue;
        const relays = slots.get(own) ?? new Map<string, number[]>();
        slots.set(own, relays.set(relay.set, [...(relays.get(relay.set) ?? []), slot]));
      }
    return slots;
  };
  const then = slotsOf(was, credential => partner.get(credential));
  const shown = (slots: readonly number[]) => slots.map(slot => slotText(is.model, slot)).join(", ");
  const sentences = [...slotsOf(is, credential => credential)].flatMap(([credential, relays]) =>
    [...relays].flatMap(([set, slots]) => {
      const old = then.get(credential)?.get(set);
      if (!old || old.join() === slots.join()) return [];
      const label = is.relays.find(relay => relay.set === set)?.label;
      const door = label === undefined ? `relay ${set} of ${labelled(is.label)}` : labelled(label);
      return [`${credentialWords(credential)} moves to slot ${shown(slots)} of ${door}, before: ${shown(old)}.`];
    }),
  );
  const about = { kind: "moved", keypad: is.id } as const;
  if (sentences.length > mostListed) return [{ ...about, text: `${sentences.length} codes and tags move to other slots of ${named(is)}.` }];
  return sentences.map(text => ({ ...about, text }));
}

function records(was: Keypad, is: Keypad): readonly Change[] {
  const about = { kind: "record", keypad: is.id } as const;
  const at = named(is);
  const [then, now] = [was.fitted, is.fitted];
  if (!now)
    return then ? [{ ...about, text: `The record of what is fitted at ${at} is gone: the next sheet starts from the factory.` }] : [];
  const words = ({ date, knows }: NonNullable<Keypad["fitted"]>) =>
    knows === "nothing" ? "nobody knows what is fitted" : `${date ?? "without a day"}${knows === "part" ? ", as far as it is known" : ""}`;
  if (!then) return [{ ...about, text: `What is fitted at ${at} is recorded: ${words(now)}.` }];
  if (words(then) !== words(now))
    return [{ ...about, text: `What is fitted at ${at} is recorded: ${words(now)}; before: ${words(then)}.` }];
  const same = sameRecord(then.memory, now.memory);
  return same ? [] : [{ ...about, text: `The record of what is fitted at ${at} says something else, of the same day.` }];
}

function sameRecord(one: Memory | undefined, other: Memory | undefined): boolean {
  const told = (memory: Memory | undefined) =>
    memory &&
    JSON.stringify([
      memory.installer,
      memory.codeLength,
      [...memory.allRelay],
      [...memory.releases],
      [...memory.settings],
      [...memory.slots.values()],
    ]);
  return told(one) === told(other);
}
