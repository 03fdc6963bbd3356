/** A relay that nothing fires. */
import type { Fix } from "../finding.ts";
import type { Model } from "../keypad/model.ts";
import { relaysOf } from "../keypad/relay-set.ts";
import type { HeldUse, Keypad, KeypadRelay, Site } from "../site/site.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { linesAtEnd, replace } from "./edits.ts";
import { numbersOf } from "./relay-range.ts";
import { wantedDoor } from "./wanted.ts";
import { relayWords } from "./words.ts";

interface Unreachable extends Found {
  readonly keypad: Keypad;
  /** Relays that the block does not mention; empty where `relay` is described. */
  readonly unsaid: readonly string[];
  readonly relay?: KeypadRelay;
  /** Something is placed on it, and none of it fires. */
  readonly placed: boolean;
}

export const relayUnreachable = check({
  code: "relay-unreachable",
  severity: "error",
  needsOpen: true,
  explain: {
    what: "A relay, neither `spare` nor `no codes`, that no code, tag or all-relay code fires.",
    why: "Nobody can open the door behind it: nothing is placed on it, or everything placed on it is lost to shorter codes or has a length that the keypad never accepts. Say `spare` where nothing is wired to it, `no codes` where a button or a handset fires it.",
    triggers: mullion`
      model wader "Two relays" {
        relays 1 = 1, 2 = 2
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {relay} {slot} {code} #
        clear slot 3 {relay} {slot} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : wader {
           //^^^^ relay-unreachable
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
      }
    `,
    quiet: mullion`
      model wader "Two relays" {
        relays 1 = 1, 2 = 2
        slots 1..3 per relay
        codes 4 digits
        enter * {installer} #
        leave * *
        put code 1 {relay} {slot} {code} #
        clear slot 3 {relay} {slot} #
        set installer 4 {code} {code} #
        open code {code}
        factory { installer code 9753 }
      }

      holder u1 "Unit 1" code 4829
      keypad gate "Gate" : wader {
        installer code 6044
        relay 1 "Foot gate" {
          1 u1
        }
        relay 2 spare
      }
    `,
  },
  *find(site): Iterable<Unreachable> {
    // A model that is wrong or lacks something fires nothing, and says so itself.
    const wrong = new Set(site.modelProblems.filter(({ problem }) => problem.severity === "error").map(({ node }) => node));
    for (const keypad of site.keypads.values()) {
      if (keypad.model && keypad.node.body && !wrong.has(keypad.model.decl)) yield* unreachableOn(keypad, keypad.model);
    }
  },
  message: ({ keypad, unsaid, relay, placed }) => {
    if (relay) return placed ? `nothing that is placed on ${relayWords(relay)} ever fires it` : `nothing fires ${relayWords(relay)}`;
    const [last, ...others] = [...unsaid].reverse();
    const which = others.length > 0 ? `relays ${others.reverse().join(", ")} and ${last}` : `relay ${last}`;
    return `nothing fires ${which} of ${keypad.label}, and nothing says that ${others.length > 0 ? "they are" : "it is"} spare`;
  },
  fixes: ({ file, keypad, unsaid, relay, placed }, site): readonly Fix[] => {
    if (placed) return [];
    if (!relay) return sparing(site, keypad, unsaid);
    const from = relay.node.release?.start ?? relay.node.body?.start ?? relay.node.end;
    const gap = from === relay.node.end ? " " : "";
    const say = (word: string) => [replace(file, { start: from, end: relay.node.end }, gap + word)];
    return [
      { title: "Say that it is spare", edits: say("spare"), preferred: true },
      { title: "Say that it has no codes", edits: say("no codes") },
    ];
  },
});

function* unreachableOn(keypad: Keypad, model: Model): Iterable<Unreachable> {
  // What cannot be read yet may be what fires it: that is reported where it stands.
  if (keypad.allRelay.some(({ held }) => !held || !isKnown(held))) return;
  const fired = new Set<string>();
  for (const relays of wantedDoor(keypad, model).opens.values()) for (const relay of relays) fired.add(relay);
  const unread = new Set<string>();
  const placedOn = new Set<string>();
  const described = new Map<string, KeypadRelay>();
  for (const relay of keypad.relays) {
    if (!described.has(relay.set)) described.set(relay.set, relay);
    for (const single of relaysOf(relay.set)) {
      if (relay.placements.length > 0) placedOn.add(single);
      if (
        relay.placements.some(({ held, node }) => held.length === 0 || held.some(use => !isKnown(use)) || (node.pair && held.length < 2))
      ) {
        unread.add(single);
      }
    }
  }
  const unsaid: string[] = [];
  for (const number of model.relayNumbers) {
    const single = String(number);
    const relay = described.get(single);
    if (fired.has(single) || unread.has(single) || relay?.spare || relay?.noCodes) continue;
    const placed = placedOn.has(single);
    if (relay) yield { ...at(keypad.file, numbersOf(relay)), ...only(keypad), keypad, relay, unsaid: [], placed };
    else if (!placed) unsaid.push(single);
    else {
      const set = keypad.relays.find(one => one.placements.length > 0 && relaysOf(one.set).includes(single));
      if (set) yield { ...at(keypad.file, numbersOf(set)), ...only(keypad), keypad, relay: set, unsaid: [], placed };
    }
  }
  const place = keypad.node.name ?? keypad.node.keyword;
  if (unsaid.length > 0) yield { ...at(keypad.file, place), ...only(keypad), keypad, unsaid, placed: false };
}

/** What is named is there, and has digits or a number. */
function isKnown({ credential }: HeldUse): boolean {
  return credential !== undefined && (credential.digits !== undefined || credential.tag !== undefined);
}

function sparing(site: Site, keypad: Keypad, unsaid: readonly string[]): readonly Fix[] {
  if (!keypad.node.body) return [];
  const title = unsaid.length > 1 ? "Say that they are spare" : `Say that relay ${unsaid[0]} is spare`;
  const lines = (words: string) => [
    linesAtEnd(
      site,
      keypad.file,
      keypad.node.body ?? keypad.node,
      unsaid.map(relay => `relay ${relay} ${words}`),
    ),
  ];
  return [{ title, edits: lines("spare"), preferred: true }];
}
