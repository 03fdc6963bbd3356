/** Random small models and memories, of every kind that the language can say. */
import fc from "fast-check";
import type { Memory, Slot } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { numbersAllRelay, slotKey } from "../../../shared/keypad/slot-key.ts";
import { modelOf } from "./keypads.ts";

export interface Traits {
  readonly addressing: "per relay" | "shared" | "unnumbered" | "one per relay";
  readonly holds: "" | "holds code or tag" | "holds code with tag";
  readonly allRelay: "none" | "one" | "numbered";
  readonly length: "one" | "follows installer code" | "set by entry" | "free";
  readonly rewrite: "replaces" | "refused";
  readonly twins: "refused" | "first fires" | "all fire";
  readonly relength: "clears" | "keeps what was stored";
  readonly acts: "at once" | "after a pause";
  readonly listens: "from the first key" | "to the last keys";
  readonly session: "many entries" | "one entry";
  readonly sets: boolean;
  readonly tagTyped: boolean;
  readonly clearRelay: boolean;
  readonly without: readonly string[];
}

export const traits: fc.Arbitrary<Traits> = fc.record({
  addressing: fc.constantFrom("per relay", "shared", "unnumbered", "one per relay"),
  holds: fc.constantFrom("", "", "holds code or tag", "holds code with tag"),
  allRelay: fc.constantFrom("none", "one", "numbered"),
  length: fc.constantFrom("one", "follows installer code", "set by entry", "free"),
  rewrite: fc.constantFrom("replaces", "refused"),
  twins: fc.constantFrom("refused", "first fires", "all fire"),
  relength: fc.constantFrom("clears", "keeps what was stored"),
  acts: fc.constantFrom("at once", "after a pause"),
  listens: fc.constantFrom("from the first key", "from the first key", "to the last keys"),
  session: fc.constantFrom("many entries", "many entries", "one entry"),
  sets: fc.boolean(),
  tagTyped: fc.boolean(),
  clearRelay: fc.boolean(),
  without: fc.subarray(["clear slot", "clear code", "clear tag", "clear all-relay", "set installer", "set release", "clear all"], {
    maxLength: 2,
  }),
});

const made = new Map<string, Model>();

export function drawnModel(drawn: Traits): Model {
  // Without numbers nothing says which code and tag belong together.
  const unnumbered: Traits = drawn.addressing === "unnumbered" ? { ...drawn, holds: "" } : drawn;
  // A pair that cannot be cleared by its number could be cleared by a code written just for that: no keypad is worth planning so.
  const raw: Traits =
    unnumbered.holds === "" ? unnumbered : { ...unnumbered, without: unnumbered.without.filter(name => name !== "clear slot") };
  const key = JSON.stringify(raw);
  const known = made.get(key);
  if (known) return known;
  const numbered = raw.addressing === "per relay" || raw.addressing === "shared";
  const several = numbered && raw.allRelay === "numbered";
  const slot = numbered ? "{slot}" : "";
  const address = raw.addressing === "shared" ? "" : "{relay}";
  const withTag = raw.holds === "holds code with tag";
  const operations: Record<string, string> = {
    "put code": `7 {relay} ${slot} {code} OK`,
    "put tag": raw.tagTyped ? `8 {relay} ${slot} {tag:8} OK` : `8 {relay} ${slot} [present tag] OK`,
    ...(raw.addressing === "unnumbered" ? {} : { "clear slot": `9 ${address} ${slot} OK` }),
    "clear code": `55 ${raw.clearRelay ? "{relay}" : ""} {code} OK`,
    "clear tag": `56 ${raw.clearRelay ? "{relay}" : ""} ${raw.tagTyped ? "{tag:8}" : "[present tag]"} OK`,
    "set installer": "31 {code} OK",
    ...(raw.allRelay === "none"
      ? {}
      : { "set all-relay": `32 ${several ? "{slot}" : ""} {code} OK`, "clear all-relay": `33 ${several ? "{slot}" : ""} OK` }),
    "set release": "6 {relay} {seconds:2} OK",
    ...(raw.length === "set by entry" ? { "set length": "40 {digits} OK" } : {}),
    "clear all": "70 OK",
  };
  const lines = [
    "keys 0..9 B C OK",
    raw.sets ? "relays 1 = 1, 2 = 2, 1+2 = 3" : "relays 1 = 1, 2 = 2",
    raw.addressing === "unnumbered"
      ? "slots 4 unnumbered"
      : raw.addressing === "one per relay"
        ? "slots one per relay"
        : `slots 1..3 ${several ? ", 8..9 all-relay" : ""} ${raw.addressing}`,
    raw.length === "one" ? "codes 2 digits" : "codes 2 | 3 digits",
    raw.length === "one" ? "" : `length ${raw.length}`,
    `rewrite ${raw.rewrite}`,
    `twins ${raw.twins}`,
    `relength ${raw.relength}`,
    `acts ${raw.acts}`,
    `listens ${raw.listens}`,
    raw.session === "one entry" ? "session one entry" : "",
    "release 1s..9s",
    "enter OK {installer} OK",
    "leave OK OK",
    ...Object.entries(operations).flatMap(([name, keys]) => (raw.without.includes(name) ? [] : [`${name} ${keys}`])),
    "open code {code}",
    raw.allRelay === "none" ? "" : "open all-relay {relay} B {code}",
    raw.tagTyped ? "open tag {tag:8}" : "open tag [present tag]",
    withTag ? `open both {code} ${raw.tagTyped ? "{tag:8}" : "[present tag]"}` : "",
    `factory { installer code 97 ${raw.length === "set by entry" ? "code length 2" : ""} }`,
  ];
  const text = lines
    .filter(line => line.trim() !== "")
    .map(line =>
      line.replace(raw.holds && line.startsWith("slots") ? /$/ : /^$/, raw.holds && line.startsWith("slots") ? ` ${raw.holds}` : ""),
    );
  const model = modelOf(text.join("\n"));
  made.set(key, model);
  return model;
}

const codes = { 2: ["11", "12", "21", "22"], 3: ["111", "112", "121", "211", "221"] } as const;

/** What is stored where: picks that any model makes a memory of. */
export interface Picks {
  readonly installer: number;
  readonly length: 2 | 3;
  readonly places: readonly {
    readonly relay: number;
    readonly number: number;
    readonly code: number;
    readonly tag: number;
    readonly long: boolean;
  }[];
  readonly allRelay: readonly number[];
  readonly release: number;
}

export const picks: fc.Arbitrary<Picks> = fc.record({
  installer: fc.nat(3),
  length: fc.constantFrom(2, 3),
  places: fc.array(
    fc.record({
      relay: fc.nat(2),
      number: fc.integer({ min: 1, max: 3 }),
      code: fc.integer({ min: -1, max: 4 }),
      tag: fc.integer({ min: -2, max: 2 }),
      long: fc.boolean(),
    }),
    { maxLength: 4 },
  ),
  allRelay: fc.array(fc.integer({ min: -1, max: 3 }), { maxLength: 2 }),
  release: fc.integer({ min: 1, max: 2 }),
});

/** @param strict no codes but those of the length in force: what a text may want. */
export function drawnMemory(model: Model, drawn: Picks, strict: boolean): Memory {
  const fixed = model.length === "one" ? 2 : drawn.length;
  const digits = (at: number, long: boolean) => {
    const length =
      model.length === "free"
        ? long
          ? 3
          : 2
        : model.relength === "keeps" && model.length !== "one" && !strict && long
          ? 5 - fixed
          : fixed;
    return codes[length as 2 | 3][at % codes[length as 2 | 3].length];
  };
  const installers = { 2: ["97", "98", "12", "21"], 3: ["979", "989", "121", "112"] };
  const installerLength = model.length === "follows installer code" ? fixed : model.length === "one" ? 2 : drawn.length;
  const slots = new Map<string, Slot>();
  const used = new Set<string>();
  const fresh = (what: string | undefined) => {
    if (what === undefined || (model.twins === "refused" && used.has(what))) return undefined;
    used.add(what);
    return what;
  };
  const relays = [...model.relays.keys()];
  const allRelay = new Map<string, { number?: number; code: string }>();
  if (model.operations.has("set all-relay"))
    drawn.allRelay.slice(0, numbersAllRelay(model) ? 2 : 1).forEach((pick, at) => {
      const code = pick < 0 ? undefined : fresh(digits(pick, pick === 3));
      if (code !== undefined)
        allRelay.set(numbersAllRelay(model) ? `${8 + at}` : "", { ...(numbersAllRelay(model) ? { number: 8 + at } : {}), code });
    });
  for (const { relay, number, code, tag, long } of drawn.places) {
    const fires = relays[relay % relays.length] ?? "1";
    const both = model.slots.holds !== "one";
    const wantsCode = code >= 0 && (both || tag < 0 || code % 2 === 0);
    const numbered = model.slots.addressing === "per relay" || model.slots.addressing === "shared";
    const draft = { code: wantsCode ? digits(code, long) : undefined, tag: tag >= 0 && (both || !wantsCode) ? `${100 + tag}` : undefined };
    if (model.slots.addressing === "unnumbered" && draft.code !== undefined) draft.tag = undefined;
    const key = slotKey(model, fires, numbered ? number : undefined, {
      ...(draft.code ? { code: draft.code } : {}),
      ...(draft.tag ? { tag: draft.tag } : {}),
    });
    if (slots.has(key) || (draft.code === undefined && draft.tag === undefined)) continue;
    const [storedCode, storedTag] = [fresh(draft.code), fresh(draft.tag)];
    if (storedCode === undefined && storedTag === undefined) continue;
    slots.set(key, {
      key,
      fires,
      ...(numbered ? { number } : {}),
      ...(storedCode === undefined ? {} : { code: storedCode }),
      ...(storedTag === undefined ? {} : { tag: storedTag }),
    });
  }
  const installer = installers[installerLength as 2 | 3][drawn.installer] ?? "97";
  return {
    installer,
    ...(model.length === "set by entry" ? { codeLength: fixed } : {}),
    allRelay,
    releases: new Map([["1", drawn.release]]),
    settings: new Map(),
    slots,
  };
}
