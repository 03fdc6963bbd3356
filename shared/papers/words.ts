/** Words that several papers share. */
import { visible } from "../sheet/visible.ts";
import type { Keypad, Site } from "../site/site.ts";
import type { Part } from "./paper.ts";

export function siteWords(site: Site): string {
  return visible(site.label ?? site.root.replace(/^.*\//, ""));
}

/** Who is called when a door does not do what a paper says: the site's contact, or a line to fill in. */
export function callParts(site: Site, when: string): readonly Part[] {
  if (site.contact !== undefined) return [{ is: "words", text: `${when}: ${visible(site.contact)}.` }];
  return [{ is: "blanks", blanks: [{ label: when }] }];
}

/** What the text says of the door that carries a label, fact by fact as it is written. */
export interface DoorSaid {
  readonly facts: readonly { readonly kind: string; readonly says: string; readonly words: readonly string[] }[];
}

export function doorSaid(site: Site, label: string): DoorSaid {
  const facts = site.doors
    .filter(({ node }) => node.label?.text === label)
    .flatMap(({ file, node }) => {
      const text = site.files.find(source => source.file === file)?.text ?? "";
      return node.facts.map(fact => ({
        kind: fact.kind,
        says: visible(fact.text?.text ?? text.slice(fact.keyword.end, fact.end).replace(/\s+/g, " ").trim()),
        words: fact.words.map(word => word.text),
      }));
    });
  return { facts };
}

export function says(door: DoorSaid, kind: string, word?: string): boolean {
  return door.facts.some(fact => fact.kind === kind && (word === undefined || fact.words.join(" ").includes(word)));
}

/** The labels of the relays that something is wired to, each door once, with the relays that release it. */
export function doorsOf(site: Site, keypads: readonly Keypad[] = [...site.keypads.values()]): ReadonlyMap<string, readonly DoorRelay[]> {
  const doors = new Map<string, DoorRelay[]>();
  for (const keypad of keypads)
    for (const relay of keypad.relays) {
      // A set without a label of its own is the doors of its relays.
      if (relay.spare || (relay.label === undefined && relay.set.includes("+"))) continue;
      const label = relay.label ?? `relay ${relay.set} of ${keypad.label}`;
      const found = doors.get(label);
      if (found) found.push({ keypad, relay });
      else doors.set(label, [{ keypad, relay }]);
    }
  return doors;
}

export interface DoorRelay {
  readonly keypad: Keypad;
  readonly relay: Keypad["relays"][number];
}

export function releaseWords(seconds: number | "toggle" | "unknown" | undefined): string | undefined {
  if (seconds === undefined || seconds === "unknown") return undefined;
  return seconds === "toggle" ? "until keyed again" : `${seconds} s`;
}
