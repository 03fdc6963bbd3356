/** What can be said in a keypad's block: its relays that are still missing first. */
import type { KeypadDecl } from "../../../grammar/tree.ts";
import { labelled } from "../../sheet/visible.ts";
import type { Keypad, Site } from "../../site/site.ts";
import type { Cursor } from "./cursor.ts";
import type { Suggestion } from "./suggestion.ts";
import { inSnippet, place } from "./suggestion.ts";

export function keypadSuggestions(site: Site, node: KeypadDecl, keypad: Keypad | undefined, cursor: Cursor): readonly Suggestion[] {
  if (/^(?:installer|all-relay(?:\s+\d+)?)\s+code\s+(?:[A-Za-z][\w-]*\.)?$/.test(cursor.line)) return codes(site, cursor);
  if (/^relay\s+(?:\d+\s*\+\s*)*$/.test(cursor.line)) return relays(keypad, false);
  if (!cursor.isFirst) return [];
  const has = (kind: string) => node.facts.some(fact => fact.kind === kind);
  const model = keypad?.model;
  const settings = [...(model?.settings.values() ?? [])].filter(({ label }) => !keypad?.settings.some(each => each.label === label));
  return [
    ...(has("installer") ? [] : [fact("installer code", "installer code $0", 0)]),
    ...relays(keypad, true),
    ...(model?.operations.has("set all-relay") !== false ? [fact("all-relay code", "all-relay code $0", 200)] : []),
    ...(model?.length === "set by entry" && !has("code-length") ? [fact("code length", "code length $0", 210)] : []),
    ...settings.map(({ label, min, max, factory }, index): Suggestion => {
      const detail = `${min} to ${max}${factory === undefined ? "" : `, factory ${factory}`}`;
      const snippet = `setting "${inSnippet(label)}" ${place(1, String(factory ?? min))}`;
      return { kind: "setting", label: `setting "${label}"`, detail, snippet, rank: 220 + index };
    }),
    fact("note", 'note "$0"', 300),
  ];
}

/** After `: ` in the first line of a keypad, or after `model ` in a record. */
export function modelSuggestions(site: Site): readonly Suggestion[] {
  return [...site.models.values()].map(({ id, label }, index) => ({
    kind: "model",
    label: id,
    detail: labelled(label),
    rank: index,
    about: { what: "model", name: id },
  }));
}

function fact(label: string, snippet: string, rank: number): Suggestion {
  return { kind: "keyword", label, snippet, rank, about: { what: "word", name: label.split(" ")[0] ?? label } };
}

/** Relays and sets of the model that the block does not mention. */
function relays(keypad: Keypad | undefined, whole: boolean): readonly Suggestion[] {
  const said = new Set(keypad?.relays.map(({ set }) => set));
  const missing = [...(keypad?.model?.relays.keys() ?? [])].filter(set => !said.has(set));
  return missing.map((set, index): Suggestion => {
    const written = whole ? `relay ${set}` : set;
    const rank = (set.includes("+") ? 100 : 10) + index;
    return { kind: "relay", label: written, detail: "not mentioned yet", snippet: `${written} "${place(1, "Door")}" {\n\t$0\n}`, rank };
  });
}

/** Codes that a keypad may be given, in the order of the text. */
function codes(site: Site, { line }: Cursor): readonly Suggestion[] {
  const [holder] = line.endsWith(".") ? line.split(/[^\w-]/).slice(-2) : [];
  const all = [...site.holders.values()].flatMap(({ credentials }) => credentials.filter(({ kind }) => kind === "code"));
  return all
    .filter(credential => !holder || credential.holder.id === holder)
    .map(({ name, holder: { id, label } }, index): Suggestion => {
      const path = name === undefined ? id : `${id}.${name}`;
      return {
        kind: "credential",
        label: !holder ? path : (name ?? "code"),
        detail: labelled(label),
        rank: index,
        about: { what: "holder", name: id },
      };
    });
}
