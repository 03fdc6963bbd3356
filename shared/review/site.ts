/** What changes of a site as a whole: its name, its own rules, what is said of its doors. */
import { listed } from "../sheet/names.ts";
import { labelled } from "../sheet/visible.ts";
import type { Keypad, Site } from "../site/site.ts";
import type { Change } from "./change.ts";
import { declared } from "./declared.ts";
import type { Pair } from "./match.ts";

/** @param doorNames labels of doors that are others now, old to new */
export function siteChanges(
  before: Site,
  after: Site,
  keypads: readonly Pair<Keypad>[],
  doorNames: ReadonlyMap<string, string>,
): readonly Change[] {
  const changes: Change[] = [];
  const say = (text: string) => void changes.push({ kind: "site", text });
  if (before.label !== after.label && after.label !== undefined)
    say(`The site is called ${labelled(after.label)}${before.label === undefined ? "" : `, before: ${labelled(before.label)}`}.`);
  const policy = (site: Site) => {
    const { node, file } = site.policy;
    return node && file !== undefined ? declared(site, file, node) : "";
  };
  if (policy(before) !== policy(after)) say("The site's own rules for codes are others.");
  const doors = changed(doorsOf(before, doorNames), doorsOf(after));
  if (doors.length > 0) say(`What is said of the lock and the way out of ${listed(doors.map(labelled))} is another.`);
  if (renamedIn(suppliesOf(before), keypads, doorNames) !== suppliesOf(after)) say("What is said of the supplies is another.");
  return changes;
}

/** What is said of each door, by the label that it has now. */
function doorsOf(site: Site, names: ReadonlyMap<string, string> = new Map()): ReadonlyMap<string, string> {
  return new Map(
    site.doors.map(({ file, node }) => {
      const label = node.label?.text ?? "a door without a label";
      return [names.get(label) ?? label, declared(site, file, { start: node.label?.end ?? node.start, end: node.end })];
    }),
  );
}

/** What feeds a door or a keypad that is only called otherwise says the same. */
function renamedIn(text: string, keypads: readonly Pair<Keypad>[], doorNames: ReadonlyMap<string, string>): string {
  let said = text;
  for (const [was, is] of doorNames) said = said.replaceAll(`"${was}"`, `"${is}"`);
  for (const { was, is } of keypads)
    if (was && is && was.id !== is.id) said = said.replace(new RegExp(`\\bkeypad ${was.id}(?![\\w-])`, "g"), `keypad ${is.id}`);
  return said;
}

function suppliesOf(site: Site): string {
  return site.supplies.map(({ file, node }) => declared(site, file, node)).join("\n");
}

function changed(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): readonly string[] {
  return [...new Set([...after.keys(), ...before.keys()])].filter(key => before.get(key) !== after.get(key));
}
