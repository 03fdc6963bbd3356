/** What to see to before the first entry: power, installer code, tags, a test of the record, whom to tell, who is shut out, cautions. */
import { decides } from "../doors/words.ts";
import type { KeyGroup, TagId } from "../keypad/memory.ts";
import type { Plan } from "../plan/plan.ts";
import { minutesOf } from "../plan/time.ts";
import type { Keypad, Site } from "../site/site.ts";
import type { Names } from "./names.ts";
import { credentialWords, listed, tagWords } from "./names.ts";
import type { BeforeItem } from "./shape.ts";
import type { Show } from "./show.ts";
import { shownGroups } from "./show.ts";
import { emptiesEverything, shutOuts } from "./shut-out.ts";
import { labelled, visible } from "./visible.ts";

/** A code that was fitted before and opens something: keyed first, it tells whether the record is still true. */
export interface KnownGood {
  readonly who: string;
  readonly groups: readonly KeyGroup[];
  readonly opens: readonly string[];
}

/**
 * @param toTry tags that are presented when it is tried.
 * @param known undefined where nothing is recorded that opens something.
 * @param secondsBetween the time that the entries from one number to another take.
 */
export function beforeYouStart(
  site: Site,
  keypad: Keypad,
  plan: Plan,
  names: Names,
  show: Show,
  toTry: readonly TagId[],
  known: KnownGood | undefined,
  secondsBetween: (from: number, until: number) => number,
): readonly BeforeItem[] {
  const items: BeforeItem[] = [];
  if (plan.reset) items.push({ kind: "reset", text: `Reset by hand first: ${visible(plan.reset.text)}` });
  if (plan.model.settleSeconds > 0 && plan.sessions.length > 0)
    items.push({ kind: "power", text: `If the keypad was off: power it and wait ${plan.model.settleSeconds} s before the first key.` });
  items.push(...installerItems(plan));
  for (const tag of plan.tags) items.push({ kind: "tag", text: `Bring ${tagToBring(tag, names)}.` });
  for (const tag of toTry)
    if (!plan.tags.includes(tag)) items.push({ kind: "tag", text: `Bring ${tagToBring(tag, names)}, to try it at the end.` });
  if (known)
    items.push({
      kind: "key",
      text: `${plan.start.from === "fitted" && plan.start.text !== undefined ? `Was ${visible(plan.start.text)} typed as it stands?` : "Is the record still true?"} Key ${known.who}: ${names.doors(known.opens)} must open. If not, stop and find out what is fitted.`,
      keys: shownGroups(known.groups, show),
    });
  const told = holdersToTell(plan, names);
  if (told.length > 0) items.push({ kind: "tell", text: `Tell ${listed(told)}: the code changes with this visit.` });
  items.push(...shutOutItems(plan, names, secondsBetween));
  if (plan.sessions.some(session => session.entries.some(entry => entry.because === "length changed")))
    items.push({ kind: "relength", text: "The new code length clears what was stored: everything is typed again." });
  items.push(...cautions(site, keypad));
  return items;
}

function installerItems(plan: Plan): readonly BeforeItem[] {
  if (plan.sessions.length === 0) return [];
  const changes = plan.sessions.some(session => session.changesInstaller);
  const items: BeforeItem[] = [
    {
      kind: "installer",
      text: changes ? "Have the installer code in hand, the old one and the new one." : "Have the installer code in hand.",
    },
  ];
  if (plan.start.from === "unknown" || (plan.start.from === "fitted" && plan.start.knows === "part")) {
    const ways = plan.model.resets.map(
      reset => `a reset of ${reset.what === "everything" ? "everything" : "the installer code"} (${visible(reset.text)})`,
    );
    const way = ways.length > 0 ? ` The way back is ${ways.join(", or ")}.` : "";
    items.push({ kind: "installer", text: `If the installer code does not enter, stop: the keypad has another one.${way}` });
  }
  return items;
}

function tagToBring(tag: TagId, names: Names): string {
  const credential = names.tag(tag);
  if (!credential) return tagWords(tag);
  const numbered = /^[0-9]+$/.test(tag);
  return numbered ? `${credentialWords(credential)}, ${tagWords(tag)}` : credentialWords(credential);
}

/** Holders of codes that are new on the keypad where another code stood before. */
function holdersToTell(plan: Plan, names: Names): readonly string[] {
  if (plan.start.from !== "fitted") return [];
  const before = new Set([...plan.before.slots.values()].map(slot => slot.code));
  const told = new Set<string>();
  for (const slot of plan.target.slots.values()) {
    const was = names.before(slot.fires, slot.number);
    if (slot.code === undefined || before.has(slot.code) || was?.code === undefined) continue;
    const holder = names.code(slot.code, slot.fires, slot.number)?.holder;
    if (holder) told.add(labelled(holder.label));
  }
  for (const [number, { code }] of plan.target.allRelay) {
    const was = plan.before.allRelay.get(number)?.code;
    const holder = code === undefined ? undefined : names.code(code)?.holder;
    if (was !== undefined && was !== code && holder) told.add(labelled(holder.label));
  }
  return [...told];
}

/** Beyond so many, who is shut out is summed up: nobody reads more before the first key. Our own choice. */
const mostShutOutLines = 12;

function shutOutItems(plan: Plan, names: Names, secondsBetween: (from: number, until: number) => number): readonly BeforeItem[] {
  const empty = plan.before.slots.size === 0 && plan.before.allRelay.size === 0 && plan.start.from === "fitted";
  if (emptiesEverything(plan) && plan.start.from !== "factory" && !empty)
    return [
      {
        kind: "shut-out",
        text: `Shut out meanwhile: everyone, until their own entry is typed; the last for ${minutesWords(plan.seconds)}.`,
      },
    ];
  const outs = shutOuts(plan);
  if (outs.length > mostShutOutLines) {
    const longest = Math.max(...outs.map(({ from, until }) => secondsBetween(from, until)));
    const each = "each from the entry that takes it out to the one that writes it again";
    return [
      { kind: "shut-out", text: `Shut out meanwhile: ${outs.length} codes and tags, ${each}; the longest ${minutesWords(longest)}.` },
    ];
  }
  return outs.map(({ id, relay, from, until }) => {
    const [kind, digits = ""] = splitOnce(id);
    const credential = kind === "code" ? names.code(digits, relay) : names.tag(digits, relay);
    const who = credential ? credentialWords(credential) : kind === "code" ? "a code that stays" : tagWords(digits);
    const door = relay === undefined ? "every door" : names.relay(relay);
    const span = minutesWords(secondsBetween(from, until));
    return { kind: "shut-out", text: `Shut out meanwhile: ${who} at ${door}, from entry ${from} to entry ${until}, ${span}.` };
  });
}

/** Rounded up to the minute, as every estimate on a sheet. */
export function minutesWords(seconds: number): string {
  const minutes = minutesOf(seconds);
  return minutes <= 1 ? "about a minute" : `about ${minutes} minutes`;
}

/** Doors of this keypad whose gate moves near people; who decides is said once. */
function cautions(site: Site, keypad: Keypad): readonly BeforeItem[] {
  const labels = new Set(keypad.relays.map(relay => relay.label));
  const said: string[] = [];
  for (const { node } of site.doors) {
    const label = node.label?.text;
    if (label === undefined || !labels.has(label)) continue;
    if (node.facts.some(fact => fact.kind === "near-people"))
      said.push(
        `${labelled(label)} has moving parts within reach of whoever stands at the keypad: stand clear before keying what opens it.`,
      );
    if (node.facts.some(fact => fact.kind === "lock" && fact.words.some(word => word.text === "start contact")))
      said.push(
        `The keypad only asks ${labelled(label)} to move; the operator's own protective devices are to be tested by a competent person.`,
      );
  }
  return said.map((text, index) => ({ kind: "caution", text: index === said.length - 1 ? `${text} ${decides}` : text }));
}

function splitOnce(text: string): readonly [string, string] {
  const at = text.indexOf(" ");
  return [text.slice(0, at), text.slice(at + 1)];
}
