/** Which kinds of entry a keypad needs to get from its record to its text: without a plan, since the text may not be one to plan from. */
import type { Memory } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { Keypad } from "../site/site.ts";
import { wantedOf } from "./wanted.ts";

/** Words of the operations, settings as `set setting "key light"`, `leave` where anything is typed at all. */
export function entriesNeeded(keypad: Keypad, model: Model): ReadonlySet<string> {
  const before: Memory = keypad.fitted?.memory ?? model.factory;
  const wanted = wantedOf(keypad, model);
  const needed = new Set<string>();
  for (const [key, slot] of wanted.slots) {
    const old = before.slots.get(key);
    if (slot.code !== undefined && (slot.code !== old?.code || slot.fires !== old.fires)) needed.add("put code");
    if (slot.tag !== undefined && (slot.tag !== old?.tag || slot.fires !== old.fires)) needed.add("put tag");
    if (old && model.rewrite === "refused" && needed.size > 0) needed.add("clear slot");
  }
  for (const [key, old] of before.slots) {
    if (wanted.slots.has(key)) continue;
    needed.add(model.operations.has("clear slot") ? "clear slot" : old.code === undefined ? "clear tag" : "clear code");
  }
  for (const [number, { code }] of wanted.allRelay) if (code !== before.allRelay.get(number)?.code) needed.add("set all-relay");
  for (const number of before.allRelay.keys()) if (!wanted.allRelay.has(number)) needed.add("clear all-relay");
  if (wanted.installer !== before.installer) needed.add("set installer");
  if (wanted.codeLength !== before.codeLength) needed.add("set length");
  for (const [relay, release] of wanted.releases) if (release !== before.releases.get(relay)) needed.add("set release");
  for (const [label, value] of wanted.settings) if (value !== before.settings.get(label)) needed.add(`set setting "${label}"`);
  if (keypad.fitted?.knows === "nothing") needed.add("clear all");
  if (needed.size > 0 && model.operations.has("leave")) needed.add("leave");
  return needed;
}
