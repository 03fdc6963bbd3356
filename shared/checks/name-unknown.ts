/** A name that nothing in the site has. */
import type { Word } from "../../grammar/tree.ts";
import type { FileId, Fix } from "../finding.ts";
import { mayBeSealed } from "../sealed/shut.ts";
import type { Site } from "../site/site.ts";
import { heldEverywhere } from "../site/where.ts";
import type { Found } from "./check.ts";
import { at, check, mullion, only } from "./check.ts";
import { insert, lineBreakOf, replace, textOf } from "./edits.ts";
import { nearestName } from "./nearest.ts";
import type { InRecord } from "./record.ts";
import { inRecords } from "./record.ts";

/** What was meant is looked for this often: where more is unknown, it is a file that is missing, and the search is not free. */
const mostGuesses = 20;

interface Unknown extends Found {
  readonly inRecord?: never;
  readonly what: "holder" | "model" | "setting" | "door" | "keypad";
  readonly name: string;
  readonly word: Pick<Word, "start" | "end">;
  /** The model that has no such setting. */
  readonly model?: string;
  readonly meant?: string;
  /** How what was probably meant is written, where the word is none of a holder at all. */
  readonly hint?: string;
}

export const nameUnknown = check({
  code: "name-unknown",
  severity: "error",
  exceptions: "warning where a door or a supply names it",
  explain: {
    what: "A holder, model, setting, door or keypad that nothing in the site is called.",
    why: "An entry for nobody cannot be typed; mostly the name has a slip in it, or the file that declares it is not used.",
    triggers: mullion`
      holder u1 "Unit 1" code 4829

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u7
          //^^ name-unknown
        }
      }
    `,
    quiet: mullion`
      holder u1 "Unit 1" code 4829
      holder u7 "Unit 7" code 5591

      keypad gate "Gate" : tiny {
        installer code 6044
        relay 1 "Gate" {
          1 u1
          2 u7
        }
      }
    `,
  },
  *find(site): Iterable<Unknown | InRecord> {
    let guesses = mostGuesses;
    const holders = [...site.holders.keys()];
    for (const { keypad, use } of heldEverywhere(site)) {
      if (use.holder || mayBeSealed(site, "holder", use.node.holder.text)) continue;
      const word = use.node.holder;
      const hint = hintFor(site, use.file, word);
      const meant = hint === undefined && guesses-- > 0 ? nearestName(word.text, holders) : undefined;
      yield {
        ...at(use.file, word),
        ...only(keypad),
        what: "holder",
        name: word.text,
        word,
        ...(meant === undefined ? {} : { meant }),
        ...(hint === undefined ? {} : { hint }),
      };
    }
    const modelNames = new Set(site.modelNodes.flatMap(({ node }) => (node.name ? [node.name.text] : [])));
    for (const keypad of site.keypads.values()) {
      const word = keypad.node.model;
      if (word && !modelNames.has(word.text) && !mayBeSealed(site, "model", word.text))
        yield { ...unknown("model", keypad.file, word, modelNames), ...only(keypad) };
      for (const fact of keypad.node.facts) {
        if (fact.kind !== "setting" || !fact.label || !keypad.model || keypad.model.settings.has(fact.label.text)) continue;
        yield { ...unknown("setting", keypad.file, fact.label, keypad.model.settings.keys()), ...only(keypad), model: keypad.model.id };
      }
    }
    yield* unknownDoors(site);
    yield* inRecords(site, "setting-unknown");
  },
  message: found => {
    if (found.inRecord) return found.inRecord.message;
    const { what, name, model, meant, hint } = found;
    const words = {
      holder: `no holder is called ${name}`,
      model: `no keypad model is called ${name} in this file or in those that it uses`,
      setting: `a ${model} has no setting "${name}"`,
      door: `no relay is labelled "${name}"`,
      keypad: `no keypad is called ${name}`,
    };
    const guess = hint ?? (meant === undefined ? undefined : `${meant} is`);
    return words[what] + (guess === undefined ? "" : `; ${guess}`);
  },
  fixes: (found, site): readonly Fix[] => {
    const fixes: Fix[] = [];
    if (found.inRecord) return fixes;
    const { file, word, what, name, meant } = found;
    const quoted = what === "setting" || what === "door";
    if (meant !== undefined) {
      fixes.push({ title: `Change to ${meant}`, edits: [replace(file, word, quoted ? `"${meant}"` : meant)], preferred: true });
    }
    if (what === "holder") {
      const text = textOf(site, file);
      const eol = lineBreakOf(text);
      const last = [...site.holders.values()].filter(holder => holder.file === file).at(-1);
      const line = `holder ${name} "${name}"`;
      const keypad = [...site.keypads.values()].find(one => one.file === file && one.node.start <= word.start && word.end <= one.node.end);
      const offset = last ? last.node.end : (keypad?.node.start ?? 0);
      fixes.push({
        title: `Create holder ${name}`,
        edits: [insert(file, last ? endOfLine(text, offset) : offset, last ? `${eol}${line}` : `${line}${eol}${eol}`)],
      });
    }
    return fixes;
  },
});

/** Words of everyday speech that newcomers write into an entry, where the language has a sign or another word. */
function hintFor(site: Site, file: FileId, word: Word): string | undefined {
  const text = word.text.toLowerCase();
  if (text === "slot" || text === "place") return "a slot is written as its number alone";
  if (text === "and" || text === "plus") return "a code and a tag in one place are joined by `or` or `with`";
  if (text !== "tag" && text !== "code" && text !== "fob") return undefined;
  const before = /(?:^|[^\w.-])([A-Za-z][\w-]*)[ \t]+$/.exec(textOf(site, file).slice(Math.max(0, word.start - 200), word.start))?.[1];
  if (before === undefined || !site.holders.has(before)) return undefined;
  return text === "code" ? `the code of ${before} is written \`${before}\`` : `the tag of ${before} is written \`${before}.tag\``;
}

function unknown(what: Unknown["what"], file: FileId, word: Word, known: Iterable<string>): Unknown {
  const meant = nearestName(word.text, known);
  return { ...at(file, word), what, name: word.text, word, ...(meant === undefined ? {} : { meant }) };
}

/** Doors that no relay carries, and what a supply feeds that is not there. Neither holds back a sheet. */
function* unknownDoors(site: Site): Iterable<Unknown> {
  if (site.doors.length === 0 && site.supplies.length === 0) return;
  const labels = new Set([...site.keypads.values()].flatMap(keypad => keypad.relays.flatMap(relay => relay.label ?? [])));
  const isNowhere = (label: string) => !labels.has(label) && !mayBeSealed(site, "door", label);
  for (const { file, node } of site.doors) {
    if (node.label && isNowhere(node.label.text)) yield { ...unknown("door", file, node.label, labels), severity: "warning" };
  }
  for (const { file, node } of site.supplies) {
    for (const fed of node.facts.flatMap(fact => fact.feeds)) {
      if ("keypad" in fed) {
        if (!site.keypads.has(fed.keypad.text) && !mayBeSealed(site, "keypad", fed.keypad.text))
          yield { ...unknown("keypad", file, fed.keypad, site.keypads.keys()), severity: "warning" };
      } else if (isNowhere(fed.door.text)) yield { ...unknown("door", file, fed.door, labels), severity: "warning" };
    }
  }
}

function endOfLine(text: string, offset: number): number {
  const end = text.indexOf("\n", offset);
  if (end < 0) return text.length;
  return text[end - 1] === "\r" ? end - 1 : end;
}
