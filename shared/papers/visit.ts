/** A note of a visit: what was fitted before and after it, in sentences. No codes. Of a visit that is over, or of the next one. */
import { capital } from "../capital.ts";
import type { Memory } from "../keypad/memory.ts";
import { listed } from "../sheet/names.ts";
import { trialsOf } from "../sheet/tries.ts";
import { labelled, visible } from "../sheet/visible.ts";
import type { Site } from "../site/site.ts";
import type { Paper, PaperKind, PaperOptions, Part } from "./paper.ts";
import type { KeypadStates, PlaceState } from "./places.ts";
import { changeOf, statesOf } from "./places.ts";
import { releaseWords, siteWords } from "./words.ts";

export const visit: PaperKind = { name: "visit", make: (site, options) => [visitOf(site, options)] };

/** A verb before and after the visit. */
type Tense = (planned: string, done: string) => string;

function visitOf(site: Site, { today, earlier, keypads = [...site.keypads.values()] }: PaperOptions): Paper {
  const over = earlier !== undefined;
  const tense: Tense = (planned, done) => (over ? done : planned);
  return {
    file: "visit",
    title: "Note of the visit",
    site: siteWords(site),
    date: today,
    parts: [
      {
        is: "words",
        text: tense(
          "What the next visit changes: from what is fitted to what the text wants.",
          "What the visit changed: from the earlier record to the one that stands now.",
        ),
      },
      ...keypads.flatMap(keypad => {
        const states = earlier ? changeOf(site, keypad, earlier.keypads.get(keypad.id)) : statesOf(site, keypad);
        return [{ is: "heading", text: `${visible(keypad.label)} (${keypad.id})` } as const, ...keypadParts(site, states, tense)];
      }),
    ],
  };
}

function keypadParts(site: Site, states: KeypadStates | undefined, tense: Tense): readonly Part[] {
  if (!states) return [{ is: "words", text: "Its model is not known, or the record is of another one: nothing can be said of it." }];
  const changes = [...installerSentences(states, tense), ...placeSentences(states, tense), ...factSentences(states, tense)];
  const people = peopleSentences(site, states);
  return [
    { is: "words", text: beforeWords(states, tense) },
    ...(changes.length === 0
      ? [{ is: "words", text: tense("Nothing changes at this keypad.", "Nothing changed at this keypad.") } as const]
      : [{ is: "list", items: changes } as const]),
    ...(people.length === 0 ? [] : [{ is: "words", text: "For people:" } as const, { is: "list", items: people } as const]),
  ];
}

function beforeWords({ before, after, knows, date }: KeypadStates, tense: Tense): string {
  const taken = (memory: Memory) => [...memory.slots.values()].filter(slot => !slot.unknown).length + memory.allRelay.size;
  const known =
    knows === "nothing"
      ? "Nobody can say what it held"
      : knows === "factory"
        ? tense("It is as it left the factory", "It was as it left the factory")
        : `Recorded ${date ?? ""}${knows === "part" ? ", as far as it is known" : ""}`;
  return `${known}. Places taken: ${taken(before)} before, ${taken(after)} after.`;
}

function placeSentences({ places }: KeypadStates, tense: Tense): readonly string[] {
  return places.filter(place => !place.same).map(place => placeSentence(place, tense));
}

function placeSentence({ place, allRelay, was, wasUnknown, is }: PlaceState, tense: Tense): string {
  const old = listed(was.map(({ words }) => words));
  const fresh = listed(is.map(({ words }) => words));
  if (is.length === 0 && allRelay) return `${capital(old || "what nobody can name")} ${tense("is no longer", "was until now")} ${place}.`;
  if (is.length === 0) return `${capital(old || "what nobody can name")} ${tense("comes", "came")} out of ${place}.`;
  const instead = wasUnknown ? ", of which nobody could say what it held" : was.length > 0 ? ` in place of ${old}` : "";
  if (allRelay) return `${capital(fresh)} ${tense("becomes", "became")} ${place}${instead}.`;
  return `${capital(fresh)} ${tense("goes", "went")} into ${place}${instead}.`;
}

function installerSentences({ before, after }: KeypadStates, tense: Tense): readonly string[] {
  return before.installer === after.installer ? [] : [`The installer code ${tense("changes", "changed")}.`];
}

function factSentences({ before, after, names }: KeypadStates, tense: Tense): readonly string[] {
  const sentences: string[] = [];
  if (before.codeLength !== after.codeLength && after.codeLength !== undefined)
    sentences.push(`Codes ${tense("become", "became")} ${after.codeLength} digits long.`);
  for (const [relay, release] of after.releases) {
    const was = before.releases.get(relay);
    const words = releaseWords(release);
    if (was === release || words === undefined) continue;
    const instead = releaseWords(was);
    sentences.push(
      `${capital(names.relay(relay))} ${tense("stays", "now stays")} open ${typeof release === "number" ? "for " : ""}${words}${instead === undefined ? "" : `, before: ${instead}`}.`,
    );
  }
  for (const [label, value] of after.settings) {
    const was = before.settings.get(label);
    if (was === value || value === "unknown") continue;
    const from = was === undefined || was === "unknown" ? "" : ` from ${was}`;
    sentences.push(`Setting "${labelled(label)}" ${tense("goes", "went")}${from} to ${value}.`);
  }
  return sentences;
}

/** Who opens a door that they did not open, and who no longer does. */
function peopleSentences(site: Site, { keypad, model, before, after, names }: KeypadStates): readonly string[] {
  const doors = new Map<string, { before: Set<string>; after: Set<string> }>();
  for (const trial of trialsOf(site, keypad, { model, target: after }, names, [before])) {
    const [first] = trial.credentials;
    if (!first) continue;
    const who = labelled(first.holder.label);
    const found = doors.get(who) ?? { before: new Set(), after: new Set() };
    doors.set(who, found);
    for (const relay of trial.opensBefore) found.before.add(names.relay(relay));
    for (const relay of trial.opensAfter) found.after.add(names.relay(relay));
  }
  return [...doors].flatMap(([who, { before: then, after: now }]) => {
    const gained = [...now].filter(door => !then.has(door));
    const lost = [...then].filter(door => !now.has(door));
    return [
      ...(gained.length === 0 ? [] : [`${who} opens ${listed(gained)}.`]),
      ...(lost.length === 0 ? [] : [`${who} no longer opens ${listed(lost)}.`]),
    ];
  });
}
