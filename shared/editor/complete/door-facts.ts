/** What goes on inside a door and a supply: the unit behind a number, what a supply feeds. */
import { quoted } from "../../quoted.ts";
import type { Site } from "../../site/site.ts";
import type { Cursor } from "./cursor.ts";
import type { Suggestion } from "./suggestion.ts";

/** Units in the order in which they are likeliest, by the word that the line begins with. */
const units: Readonly<Record<string, readonly string[]>> = {
  lock: ["V", "mA", "A", "%"],
  cable: ["m", "mm2", "AWG", "C"],
  battery: ["V", "Ah", "h"],
  supply: ["V", "A"],
};

/** Behind a number without a unit; those that the line has already come last. */
export function unitSuggestions({ line }: Cursor): readonly Suggestion[] {
  if (!/\d\s+$/.test(line)) return [];
  const offered = units[line.split(/\s/, 1)[0] ?? ""] ?? [];
  const has = (unit: string) => new RegExp(`\\d\\s*${unit}(?![A-Za-z0-9])`).test(line);
  return [...offered].sort((one, other) => Number(has(one)) - Number(has(other))).map((label, rank) => ({ kind: "keyword", label, rank }));
}

/** Behind `feeds`: doors and keypads that no supply feeds yet come first. */
export function fedSuggestions(site: Site, { line }: Cursor): readonly Suggestion[] {
  if (!/^feeds\b/.test(line)) return [];
  const fed = site.supplies.flatMap(({ node }) => node.facts.flatMap(fact => fact.feeds));
  const fedDoors = new Set(fed.flatMap(each => ("door" in each ? [each.door.text] : [])));
  const fedKeypads = new Set(fed.flatMap(each => ("keypad" in each ? [each.keypad.text] : [])));
  const keypads = [...site.keypads.values()].map(({ id, label }) => ({ id, label }));
  if (/\bkeypad\s+$/.test(line)) {
    return keypads.map(({ id, label }, index) => ({
      kind: "keypad",
      label: id,
      detail: label,
      rank: fedKeypads.has(id) ? 100 + index : index,
      about: { what: "keypad", name: id },
    }));
  }
  if (!/(?:^feeds|,)\s+$/.test(line)) return [];
  const doors = [...new Set([...site.keypads.values()].flatMap(({ relays }) => relays.flatMap(({ label }) => label ?? [])))];
  return [
    ...doors.map((label, index): Suggestion => {
      return { kind: "door", label: quoted(label), rank: fedDoors.has(label) ? 100 + index : index };
    }),
    ...keypads.map(({ id, label }, index): Suggestion => {
      return { kind: "keypad", label: `keypad ${id}`, detail: label, rank: (fedKeypads.has(id) ? 200 : 50) + index };
    }),
  ];
}
