/** A fitted record as text: what a keypad is known to hold, one fact a line, in an order that stays. */
import { format } from "../../grammar/format.ts";
import { parse } from "../../grammar/parse.ts";
import type { Digits, Memory, ReleaseTime, Slot, TagId } from "../keypad/memory.ts";
import type { Model, RelaySet } from "../keypad/model.ts";
import { compareRelaySets } from "../keypad/relay-set.ts";
import { slotText } from "../keypad/slot-text.ts";
import { must } from "../must.ts";
import { quoted } from "../quoted.ts";
import type { Credential, Day, Keypad, Site } from "../site/site.ts";

/** Who has what, for the words behind a line. */
export interface Holders {
  readonly code: (digits: Digits, relay?: RelaySet, slot?: number) => Credential | undefined;
  readonly tag: (tag: TagId, relay?: RelaySet, slot?: number) => Credential | undefined;
}

/**
 * The block of one keypad, without an end of line after it.
 *
 * Settings stand in the model's order, relays and numbered slots ascend; where slots have no numbers they keep the order in which they were typed. Release times and
 * settings that nobody knows are left out. Behind each line stands who has what is there.
 */
export function printFitted(keypad: string, model: Model, date: Day, memory: Memory, holders: Holders): string {
  const lines = [`fitted ${keypad} ${date} {`, `model ${model.id}`];
  if (memory.installer !== undefined) lines.push(`installer code ${memory.installer}`);
  if (memory.codeLength !== undefined) lines.push(`code length ${memory.codeLength}`);
  const allRelay = [...memory.allRelay.values()].sort((a, b) => (a.number ?? 0) - (b.number ?? 0));
  for (const { number, code, unknown } of allRelay) {
    const what = unknown || code === undefined ? "unknown" : `code ${code}`;
    lines.push(
      `all-relay ${number === undefined ? "" : `${number} `}${what}${said([unknown || code === undefined ? undefined : holders.code(code, undefined, number)])}`,
    );
  }
  for (const label of model.settings.keys()) {
    const value = memory.settings.get(label);
    if (value !== undefined && value !== "unknown") lines.push(`setting ${quoted(label)} ${value}`);
  }
  for (const [relay, slots] of relaysOf(memory))
    for (const line of relayLines(model, relay, memory.releases.get(relay), slots, holders)) lines.push(line);
  lines.push("}");
  const text = format(`${lines.join("\n")}\n`);
  must(text !== undefined, "a record that is written can be read");
  return text.trimEnd();
}

/** A keypad of which nothing is known. */
export function printUnknown(keypad: string): string {
  return `fitted ${keypad} unknown`;
}

/** Who has what in a site, what is placed on this keypad first. */
export function holdersOf(site: Site, keypad: Keypad): Holders {
  const found = new Map<string, Credential>();
  const note = (key: string, credential: Credential) => {
    if (!found.has(key)) found.set(key, credential);
  };
  const anywhere: [string, Credential][] = [];
  for (const { relay, slot, held } of keypad.placements)
    for (const { credential } of held) {
      const id = credential && identity(credential);
      if (!credential || id === undefined) continue;
      note(`${id} ${relay.set}/${slot ?? ""}`, credential);
      anywhere.push([id, credential]);
    }
  for (const { held } of keypad.allRelay) {
    const id = held?.credential && identity(held.credential);
    if (held?.credential && id !== undefined) anywhere.push([id, held.credential]);
  }
  for (const [id, credential] of anywhere) note(id, credential);
  for (const { credentials } of site.holders.values())
    for (const credential of credentials) {
      const id = identity(credential);
      if (id !== undefined) note(id, credential);
    }
  const find = (id: string, relay: RelaySet | undefined, slot: number | undefined) =>
    found.get(`${id} ${relay ?? ""}/${slot ?? ""}`) ?? found.get(id);
  return {
    code: (digits, relay, slot) => find(`code ${digits}`, relay, slot),
    tag: (tag, relay, slot) => find(`tag ${tag}`, relay, slot),
  };
}

/**
 * A file of records with the block of one keypad replaced, or added at its end; every other character stays, line ends and byte
 * order mark included.
 *
 * @returns undefined where the file cannot be read as Mullion text: then nobody can say where the block ends.
 */
export function withFitted(file: string, keypad: string, block: string): string | undefined {
  const { tree, problems } = parse(file);
  if (problems.length > 0) return undefined;
  const eol = /\r\n/.test(file) ? "\r\n" : "\n";
  const written = block.replaceAll("\n", eol);
  const old = tree.declarations.find(one => one.kind === "fitted" && one.keypad?.text === keypad);
  if (old) return file.slice(0, old.start) + written + file.slice(old.end);
  const mark = file.startsWith("\uFEFF") ? "\uFEFF" : "";
  const others = file.slice(mark.length).trimEnd();
  return `${mark}${others === "" ? "" : `${others}${eol}${eol}`}${written}${eol}`;
}

function relaysOf(memory: Memory): ReadonlyMap<RelaySet, readonly Slot[]> {
  const relays = new Map<RelaySet, Slot[]>();
  for (const [relay, release] of memory.releases) if (release !== "unknown") relays.set(relay, []);
  for (const slot of memory.slots.values()) {
    const relay = slot.fires ?? "1";
    const slots = relays.get(relay);
    if (slots) slots.push(slot);
    else relays.set(relay, [slot]);
  }
  return new Map([...relays].sort(([one], [other]) => compareRelaySets(one, other)));
}

function relayLines(
  model: Model,
  relay: RelaySet,
  release: ReleaseTime | "unknown" | undefined,
  slots: readonly Slot[],
  holders: Holders,
): readonly string[] {
  const time = release === undefined || release === "unknown" ? "" : release === "toggle" ? " release toggle" : ` release ${release}s`;
  if (slots.length === 0) return [`relay ${relay}${time}`];
  const ordered = [...slots].sort((a, b) => (a.number ?? 0) - (b.number ?? 0));
  return [`relay ${relay}${time} {`, ...ordered.map(slot => slotLine(model, slot, holders)), "}"];
}

function slotLine(model: Model, { number, fires, code, tag, unknown }: Slot, holders: Holders): string {
  const place = number === undefined ? "" : `${slotText(model, number)} `;
  const owners = [
    code === undefined ? undefined : holders.code(code, fires, number),
    tag === undefined ? undefined : holders.tag(tag, fires, number),
  ];
  const parts = [...(code === undefined ? [] : [`code ${code}`]), ...(tag === undefined ? [] : [`tag ${tagText(tag, owners[1])}`])];
  if (unknown) {
    // Only without numbers does a record say what an unknown place may hold: nothing else tells it from others.
    const may = number === undefined && model.slots.addressing === "unnumbered" ? ` ${parts.join(" ")}` : "";
    return `${place}unknown${may}${may.trim() ? said(owners) : ""}`.trimEnd();
  }
  return `${place}${parts.join(model.slots.holds === "code with tag" ? " with " : " or ")}${said(owners)}`;
}

function tagText(tag: TagId, owner: Credential | undefined): string {
  if (!/^\d+$/.test(tag)) return quoted(tag.slice(1, -1));
  return owner?.mark === undefined ? tag : `${tag} ${quoted(owner.mark)}`;
}

function said(owners: readonly (Credential | undefined)[]): string {
  const paths = owners.flatMap(owner => (owner ? [owner.path] : []));
  return paths.length === 0 ? "" : ` // ${paths.join(", ")}`;
}

function identity({ kind, digits, tag }: Credential): string | undefined {
  if (kind === "code") return digits === undefined ? undefined : `code ${digits}`;
  return tag === undefined ? undefined : `tag ${tag}`;
}
