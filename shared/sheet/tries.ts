/** What is keyed at the door afterwards: every new code, every withdrawn one, and what each must open, told by the door recogniser. */
import type { Door } from "../keypad/door.ts";
import { doorOf } from "../keypad/door.ts";
import { encodeOpen } from "../keypad/encode.ts";
import type { Act, KeyGroup, Memory, Slot, TagId } from "../keypad/memory.ts";
import type { Model, RelaySet } from "../keypad/model.ts";
import { allRelayRelays } from "../keypad/open-strings.ts";
import { relaysOf } from "../keypad/relay-set.ts";
import type { Plan } from "../plan/plan.ts";
import type { Credential, Keypad, Site } from "../site/site.ts";
import { rowSeconds } from "./duration.ts";
import type { Names } from "./names.ts";
import { credentialWords, tagWords } from "./names.ts";
import type { Try } from "./shape.ts";
import type { Show } from "./show.ts";
import { shownGroups } from "./show.ts";

type How = Parameters<typeof encodeOpen>[1];
type Opening = Parameters<typeof encodeOpen>[2];
type Add = (operation: How, opening: Opening, who: string, ...credentials: readonly (Credential | undefined)[]) => void;

/** A try with what it tries, so that paper can pick the first and the last of a session. */
export interface Trial {
  /** `code 48291`, `tag 8061261`, or both of a pair. */
  readonly ids: readonly string[];
  readonly groups: readonly KeyGroup[];
  readonly who: string;
  /** Whose they are, one or two of a pair; empty where the text does not know. */
  readonly credentials: readonly Credential[];
  readonly opensBefore: readonly string[];
  readonly opensAfter: readonly string[];
}

/**
 * Everything that anyone can key or present in any of the memories, each once, in the order of the slots; what is lost is left out.
 *
 * @param befores what the keypad holds or held: after a reset, what it leaves and what was fitted.
 */
export function trialsOf(
  site: Site,
  keypad: Keypad,
  plan: Pick<Plan, "model" | "target">,
  names: Names,
  befores: readonly Memory[],
): readonly Trial[] {
  const after = doorOf(plan.model, plan.target);
  const doors = befores.map(memory => doorOf(plan.model, memory));
  const lost = lostTags(site);
  const wired = new Set(keypad.relays.filter(relay => !relay.spare).flatMap(relay => relay.set.split("+")));
  const found = new Map<string, Trial>();
  const add: Add = (operation, opening, who, ...credentials) => {
    if (opening.tag !== undefined && lost.has(opening.tag)) return;
    if (!canBeKeyed(plan.model, operation, opening)) return;
    const groups = encodeOpen(plan.model, operation, opening);
    const key = groups.map(group => group.text).join(" ");
    if (found.has(key)) return;
    const acts = groups.flatMap(group => group.acts);
    const ids = [
      ...(opening.code === undefined ? [] : [`code ${opening.code}`]),
      ...(opening.tag === undefined ? [] : [`tag ${opening.tag}`]),
    ];
    const known = credentials.filter(credential => credential !== undefined);
    found.set(key, { ids, groups, who, credentials: known, opensBefore: singles(doors, acts), opensAfter: singles([after], acts) });
  };
  const addMemory = (memory: Memory, relays: readonly RelaySet[]) => {
    for (const slot of memory.slots.values()) addSlot(slot, names, add);
    for (const { code } of memory.allRelay.values()) {
      if (code === undefined) continue;
      const credential = names.code(code);
      const who = credential ? credentialWords(credential) : "The all-relay code that was";
      for (const relay of relays) add("open all-relay", { code, relay }, `${who} at ${names.relay(relay)}`, credential);
    }
  };
  const keyed = allRelayRelays(plan.model).filter(set => relaysOf(set).every(relay => wired.has(relay)));
  addMemory(plan.target, keyed);
  // Where a withdrawn code opens no relay, it opens no set of them.
  for (const memory of befores)
    addMemory(
      memory,
      keyed.filter(set => relaysOf(set).length === 1),
    );
  return [...found.values()];
}

/** The trials whose outcome the plan changes: what opens anew, and what must no longer open. On a full run, everything that opens. */
export function changedTries(trials: readonly Trial[], names: Names, plan: Plan, show: Show): readonly (readonly [Trial, Try])[] {
  return trials.flatMap(trial => {
    const { opensBefore, opensAfter } = trial;
    const whole = plan.start.from !== "fitted" && opensAfter.length > 0;
    if (!whole && opensBefore.join() === opensAfter.join()) return [];
    const one: Try = {
      who: trial.who,
      keys: shownGroups(trial.groups, show),
      opens: opensAfter,
      expect: expectation(opensAfter, names, plan.target),
      kind: opensAfter.length > 0 ? "new" : "withdrawn",
      seconds: rowSeconds(trial.groups),
    };
    return [[trial, one] as const];
  });
}

/**
 * What paper prints of a full run: the first good try of each relay, the first and the last of each session, and every withdrawn one.
 * JSON has them all.
 */
export function forPaper(tries: readonly (readonly [Trial, Try])[], plan: Plan): readonly Try[] {
  if (plan.start.from === "fitted") return tries.map(([, one]) => one);
  const picked = new Set<Try>();
  const seen = new Set<string>();
  const byId = new Map<string, Try>();
  for (const [trial, one] of tries) {
    if (one.opens.length === 0 || one.opens.some(relay => !seen.has(relay))) picked.add(one);
    for (const relay of one.opens) seen.add(relay);
    for (const id of trial.ids) if (!byId.has(id)) byId.set(id, one);
  }
  for (const session of plan.sessions) {
    const written = session.entries.flatMap(({ operation }) => {
      if (operation.operation === "put code" || operation.operation === "set all-relay") return [`code ${operation.code}`];
      return operation.operation === "put tag" ? [`tag ${operation.tag}`] : [];
    });
    for (const id of [written[0], written.at(-1)]) {
      const one = id === undefined ? undefined : byId.get(id);
      if (one) picked.add(one);
    }
  }
  return tries.flatMap(([, one]) => (picked.has(one) ? [one] : []));
}

/** "Foot gate opens", "Foot gate and Porch open", "nothing". */
function expectation(opens: readonly string[], names: Names, memory: Memory): string {
  if (opens.length === 0) return "nothing";
  const stays = opens.some(relay => memory.releases.get(relay) === "toggle") ? " until it is keyed again" : "";
  return `${names.doors(opens)} ${opens.length > 1 ? "open" : "opens"}${stays}`;
}

function addSlot(slot: Slot, names: Names, add: Add): void {
  const ofCode = slot.code === undefined ? undefined : names.code(slot.code, slot.fires, slot.number);
  const ofTag = slot.tag === undefined ? undefined : names.tag(slot.tag, slot.fires, slot.number);
  const place = slot.fires === undefined ? {} : { relay: slot.fires };
  const words = () => {
    if (ofCode) return credentialWords(ofCode);
    const door = slot.fires === undefined ? "the keypad" : names.relay(slot.fires);
    return slot.number === undefined ? `The code that ${door} had` : `The code that slot ${names.slot(slot.number)} of ${door} held`;
  };
  const tag = (id: TagId) => (ofTag ? credentialWords(ofTag) : `${tagWords(id)}, if it is at hand`);
  if (slot.needsBoth && slot.code !== undefined && slot.tag !== undefined) {
    add("open both", { ...place, code: slot.code, tag: slot.tag }, `${words()} with ${tag(slot.tag)}`, ofCode, ofTag);
    return;
  }
  if (slot.code !== undefined) add("open code", { ...place, code: slot.code }, words(), ofCode);
  if (slot.tag !== undefined) add("open tag", { ...place, tag: slot.tag }, tag(slot.tag), ofTag);
}

/** The model has such an opening, and what it types of a tag is known: a tag without a number has none to key. */
function canBeKeyed(model: Model, how: How, opening: Opening): boolean {
  const template = model.operations.get(how)?.template;
  if (!template) return false;
  const keysTag = template.some(element => element.kind === "field" && element.name.text === "tag");
  return !keysTag || /^[0-9]+$/.test(opening.tag ?? "");
}

/** Single relays that any of the doors fires for these acts, ascending. */
function singles(doors: readonly Door[], acts: readonly Act[]): readonly string[] {
  const fired = new Set(doors.flatMap(door => door.fires(acts)));
  return [...fired].sort((a, b) => Number(a) - Number(b));
}

function lostTags(site: Site): ReadonlySet<TagId> {
  const lost = new Set<TagId>();
  for (const holder of site.holders.values())
    for (const credential of holder.credentials) if (credential.lost && credential.tag !== undefined) lost.add(credential.tag);
  return lost;
}
