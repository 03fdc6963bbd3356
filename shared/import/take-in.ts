/** A table taken into a site's text: holders, their codes and tags, and their places. What is there already is left alone. */
import { parse } from "../../grammar/parse.ts";
import { insert, lineBreakOf, linesAtEnd } from "../checks/edits.ts";
import { edited } from "../edited.ts";
import type { Edit, FileId, SourceFile } from "../finding.ts";
import { bandOf, isNumbered, slotKey } from "../keypad/slot-key.ts";
import { slotText } from "../keypad/slot-text.ts";
import { must } from "../must.ts";
import { quoted } from "../quoted.ts";
import { loadSite } from "../site/load.ts";
import type { Credential, Holder, Keypad, KeypadRelay, Site } from "../site/site.ts";
import { readTag } from "../tags/spelling.ts";
import type { ReadRow } from "./read-row.ts";

export interface RowReport {
  readonly row: number;
  /** `taken in part`: something of the row stands in the text now, and something does not, such as its place. */
  readonly verdict: "taken" | "there already" | "guessed" | "taken in part" | "refused";
  /** In words, without a code. */
  readonly words: string;
}

export interface TakenIn {
  /** Files that change, whole. */
  readonly files: ReadonlyMap<FileId, string>;
  readonly report: readonly RowReport[];
}

type Open = (file: FileId) => SourceFile | undefined;

/** @param into the file that new holders are written into */
export function takeIn(root: FileId, into: FileId, open: Open, rows: readonly ReadRow[]): TakenIn {
  const changed = new Map<FileId, SourceFile>();
  const read: Open = file => changed.get(file) ?? open(file);
  const change = (edits: readonly Edit[]) => {
    for (const file of new Set(edits.map(edit => edit.file))) {
      const source = read(file);
      must(source, "a file that is changed is there");
      const text = edited(
        source.text,
        edits.filter(edit => edit.file === file),
      );
      changed.set(file, { file, text, ...parse(text) });
    }
  };

  const before = loadSite(root, read);
  const holders = new Credentials(before);
  const credentials = rows.map(row => (row.holder === "" ? [] : holders.of(row)));
  change(holders.edits(into, before));

  const site = loadSite(root, read);
  const places = new Places(site);
  const report = rows.map((row, index) => reportOf(row, credentials[index] ?? [], places));
  change(places.edits());
  return { files: new Map([...changed].map(([file, { text }]) => [file, text])), report };
}

/** What a row gives its holder. */
interface Given {
  /** As entries write it. */
  readonly path: string;
  readonly kind: "code" | "tag";
  readonly isNew: boolean;
}

function reportOf(row: ReadRow, given: readonly Given[], places: Places): RowReport {
  const said: string[] = [];
  const guesses = [...row.guesses];
  const refusals = [...row.refusals];
  let news = given.some(each => each.isNew);
  for (const { path, kind, isNew } of given) if (isNew) said.push(`${kind} of ${row.holder} (${path})`);
  if (given.length > 0 && (row.keypad !== "" || row.relay !== "" || row.slot !== "")) {
    for (const [index, { path, kind }] of given.entries()) {
      // One place for one thing: what comes second is only given.
      if (index > 0) {
        guesses.push(`the ${kind} of the row has no place of its own`);
        continue;
      }
      const placed = places.place(row, path, kind);
      if ("refused" in placed) refusals.push(placed.refused);
      else {
        if (placed.guess) guesses.push(placed.guess);
        if (placed.isNew) said.push(placed.words);
        news ||= placed.isNew;
      }
    }
  }
  if (given.length === 0 && row.refusals.length === 0) refusals.push("it has neither a code nor a tag");
  if (refusals.length > 0 && said.length > 0)
    return { row: row.row, verdict: "taken in part", words: [...said, ...guesses, ...refusals.map(each => `refused: ${each}`)].join("; ") };
  if (refusals.length > 0) return { row: row.row, verdict: "refused", words: [...refusals, ...guesses].join("; ") };
  const words = [...said, ...guesses].join("; ");
  if (!news) return { row: row.row, verdict: "there already", words: words || row.holder };
  return { row: row.row, verdict: guesses.length > 0 ? "guessed" : "taken", words };
}

interface Growing {
  readonly holder?: Holder;
  readonly id: string;
  readonly label: string;
  readonly added: string[];
  readonly known: { readonly kind: "code" | "tag"; readonly value: string; readonly name?: string }[];
}

class Credentials {
  readonly #byLabel = new Map<string, Growing>();
  readonly #ids: Set<string>;

  constructor(site: Site) {
    this.#ids = new Set(site.holders.keys());
    for (const holder of site.holders.values()) {
      const known = holder.credentials.flatMap(credential => {
        const value = secretOf(credential);
        return value === undefined
          ? []
          : [{ kind: credential.kind, value, ...(credential.name === undefined ? {} : { name: credential.name }) }];
      });
      this.#byLabel.set(holder.label.toLowerCase(), { holder, id: holder.id, label: holder.label, added: [], known });
    }
  }

  of(row: ReadRow): readonly Given[] {
    const { code, tag } = row;
    if (code === undefined && tag === undefined) return [];
    const label = row.holder.toLowerCase();
    const growing = this.#byLabel.get(label) ?? { id: this.#newId(row.holder), label: row.holder, added: [], known: [] };
    this.#byLabel.set(label, growing);
    return [
      ...(code === undefined ? [] : [give(growing, "code", code, code, row)]),
      ...(tag === undefined ? [] : [give(growing, "tag", tag, tag.startsWith('"') ? tag : tagValue(tag), row)]),
    ];
  }

  edits(into: FileId, site: Site): readonly Edit[] {
    const source = site.files.find(({ file }) => file === into);
    must(source, "new holders go into a file of the site");
    const eol = lineBreakOf(source.text);
    const edits: Edit[] = [];
    let fresh = "";
    for (const { holder, id, label, added } of this.#byLabel.values()) {
      if (added.length === 0) continue;
      if (holder) {
        const end = holder.node.facts.at(-1)?.end ?? holder.node.label?.end ?? holder.node.end;
        edits.push(insert(holder.file, end, added.map(fact => `${eol}  ${fact}`).join("")));
      } else {
        const facts = added.length === 1 ? ` ${added[0]}` : added.map(fact => `${eol}  ${fact}`).join("");
        fresh += `holder ${id} ${quoted(label)}${facts}${eol}`;
      }
    }
    if (fresh === "") return edits;
    const end = source.text.length;
    const gap = source.text === "" || source.text.endsWith("\n") ? "" : eol;
    return [...edits, insert(into, end, `${gap}${source.text.trim() === "" ? "" : eol}${fresh}`)];
  }

  /** `unit-1` of "Unit 1": letters and digits; a label without any of them is numbered. */
  #newId(label: string): string {
    const letters = idOf(label, 24);
    const wish = letters === "" ? "holder" : /^[a-z]/.test(letters) ? letters : `h-${letters}`;
    for (let suffix = 1; ; suffix++) {
      const id = suffix === 1 ? wish : `${wish}-${suffix}`;
      if (this.#ids.has(id)) continue;
      this.#ids.add(id);
      return id;
    }
  }
}

/** Small letters and digits, with one dash for whatever stands between them. */
function idOf(words: string, longest: number): string {
  const plain = words.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const runs = plain.match(/[a-z0-9]+/g) ?? [];
  return runs.join("-").slice(0, longest).replace(/-$/, "");
}

function give(growing: Growing, kind: "code" | "tag", written: string, value: string, row: ReadRow): Given {
  const there = growing.known.find(each => each.kind === kind && each.value === value);
  const path = (name: string | undefined) => {
    if (name !== undefined) return `${growing.id}.${name}`;
    const other = growing.known.some(each => each.kind !== kind && each.name === undefined);
    return kind === "tag" && other ? `${growing.id}.tag` : growing.id;
  };
  if (there) return { path: path(there.name), kind, isNew: false };
  const needsName = growing.known.some(each => each.kind === kind && each.name === undefined);
  const name = needsName ? newName(growing, row.relay || row.keypad || "second") : undefined;
  growing.known.push({ kind, value, ...(name === undefined ? {} : { name }) });
  growing.added.push(`${kind} ${name === undefined ? "" : `${name} `}${written}`);
  return { path: path(name), kind, isNew: true };
}

function newName(growing: Growing, wish: string): string {
  const letters = idOf(wish, 16);
  const base = /^[a-z]/.test(letters) && letters !== "code" && letters !== "tag" ? letters : `r${letters}`;
  for (let suffix = 1; ; suffix++) {
    const name = suffix === 1 ? base : `${base}-${suffix}`;
    if (!growing.known.some(each => each.name === name)) return name;
  }
}

class Places {
  readonly #site: Site;
  readonly #lines = new Map<KeypadRelay, string[]>();
  /** Who is in a place, by keypad and slot key: what the text has, and what has been added. */
  readonly #taken = new Map<Keypad, Map<string, string>>();

  constructor(site: Site) {
    this.#site = site;
    for (const keypad of site.keypads.values()) {
      const taken = new Map<string, string>();
      for (const { relay, slot, held } of keypad.placements) {
        const path = held[0]?.credential?.path ?? held[0]?.node.holder.text ?? "";
        if (keypad.model) taken.set(isNumbered(keypad.model) ? slotKey(keypad.model, relay.set, slot) : `${relay.set} ${path}`, path);
      }
      this.#taken.set(keypad, taken);
    }
  }

  place(
    row: ReadRow,
    path: string,
    kind: "code" | "tag",
  ): { readonly words: string; readonly isNew: boolean; readonly guess?: string } | { readonly refused: string } {
    if (this.#site.keypads.size === 0) return { refused: "its place, since the site has no keypad yet" };
    const keypad = named([...this.#site.keypads.values()], row.keypad, "keypad");
    if (typeof keypad === "string") return { refused: keypad };
    const { model } = keypad;
    if (!model) return { refused: `the model of ${keypad.label} is not known` };
    const relay = named(
      keypad.relays
        .filter(each => !each.spare && !each.noCodes)
        .map(each => ({ ...each, id: each.set, label: each.label ?? "", relay: each })),
      row.relay,
      `relay of ${keypad.label}`,
    );
    if (typeof relay === "string") return { refused: relay };
    const taken = this.#taken.get(keypad) ?? new Map<string, string>();
    const door = relay.label || `relay ${relay.id}`;
    if (!isNumbered(model)) {
      const key = `${relay.id} ${path}`;
      if (taken.has(key)) return { words: door, isNew: false };
      taken.set(key, path);
      this.#add(relay.relay, path);
      return { words: door, isNew: true };
    }
    if (row.slot !== "" && !/^\d+$/.test(row.slot)) return { refused: `slot ${row.slot} is no number` };
    const there = [...taken].find(([key, held]) => held === path && keyIsOf(keypad, relay.id, key));
    if (row.slot === "" && there) return { words: door, isNew: false };
    const slot = row.slot === "" ? this.#free(keypad, relay.id, kind) : Number(row.slot);
    if (slot === undefined) return { refused: `${door} has no free slot` };
    if (!bandOf(model, slot)) return { refused: `${model.id} has no slot ${slot}` };
    const key = slotKey(model, relay.id, slot);
    const held = taken.get(key);
    if (held === path) return { words: door, isNew: false };
    if (held !== undefined) return { refused: `slot ${slotText(keypad.model, slot)} of ${door} is taken already, by ${held}` };
    taken.set(key, path);
    this.#add(relay.relay, `${slotText(keypad.model, slot)} ${path}`);
    const words = `slot ${slotText(keypad.model, slot)} of ${door}`;
    return { words, isNew: true, ...(row.slot === "" ? { guess: `the slot is the next free one` } : {}) };
  }

  edits(): readonly Edit[] {
    return [...this.#lines].flatMap(([relay, lines]) => {
      const { file } = relay.keypad;
      const eol = lineBreakOf(this.#site.files.find(source => source.file === file)?.text ?? "");
      const indent = " ".repeat(4);
      if (relay.node.body) return [linesAtEnd(this.#site, file, relay.node.body, lines)];
      return [insert(file, relay.node.end, ` {${eol}${lines.map(line => `${indent}${line}${eol}`).join("")}  }`)];
    });
  }

  #add(relay: KeypadRelay, line: string): void {
    const lines = this.#lines.get(relay) ?? [];
    this.#lines.set(relay, lines);
    lines.push(line);
  }

  #free(keypad: Keypad, relay: string, kind: "code" | "tag"): number | undefined {
    const { model } = keypad;
    const taken = this.#taken.get(keypad);
    for (const { from, to, kept } of model?.slots.bands ?? []) {
      if (kept !== undefined && kept !== `${kind}s`) continue;
      for (let slot = from; slot <= to; slot++) if (model && !taken?.has(slotKey(model, relay, slot))) return slot;
    }
    return undefined;
  }
}

function keyIsOf(keypad: Keypad, relay: string, key: string): boolean {
  return keypad.model?.slots.addressing === "shared" || key.startsWith(`${relay}/`);
}

/** The one of that id or label, or the only one where none is named. */
function named<T extends { readonly id: string; readonly label: string }>(all: readonly T[], said: string, what: string): T | string {
  if (said === "") return all.length === 1 && all[0] ? all[0] : `it does not say which ${what}`;
  const found = all.find(({ id }) => id === said) ?? all.find(({ label }) => label.toLowerCase() === said.toLowerCase());
  return found ?? `there is no ${what} called ${said}`;
}

function secretOf({ kind, digits, tag }: Credential): string | undefined {
  return kind === "code" ? digits : tag;
}

function tagValue(written: string): string {
  const read = readTag(written);
  return "tag" in read ? read.tag : written;
}
