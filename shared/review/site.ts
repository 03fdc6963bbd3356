/** What changes of a site as a whole: its name, its own rules, what is said of its doors. */
import { listed } from "../sheet/names.ts";
import { labelled } from "../sheet/visible.ts";
import type { Site } from "../site/site.ts";
import type { Change } from "./change.ts";
import { declared } from "./declared.ts";

export function siteChanges(before: Site, after: Site): readonly Change[] {
  const changes: Change[] = [];
  const say = (text: string) => void changes.push({ kind: "site", text });
  if (before.label !== after.label && after.label !== undefined)
    say(`The site is called ${labelled(after.label)}${before.label === undefined ? "" : `, before: ${labelled(before.label)}`}.`);
  const policy = (site: Site) => {
    const { node, file } = site.policy;
    return node && file !== undefined ? declared(site, file, node) : "";
  };
  if (policy(before) !== policy(after)) say("The site's own rules for codes are others.");
  const doors = changed(doorsOf(before), doorsOf(after));
  if (doors.length > 0) say(`What is said of the lock and the way out of ${listed(doors.map(labelled))} is another.`);
  if (suppliesOf(before) !== suppliesOf(after)) say("What is said of the supplies is another.");
  return changes;
}

function doorsOf(site: Site): ReadonlyMap<string, string> {
  return new Map(site.doors.map(({ file, node }) => [node.label?.text ?? "a door without a label", declared(site, file, node)]));
}

function suppliesOf(site: Site): string {
  return site.supplies.map(({ file, node }) => declared(site, file, node)).join("\n");
}

function changed(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): readonly string[] {
  return [...new Set([...after.keys(), ...before.keys()])].filter(key => before.get(key) !== after.get(key));
}
