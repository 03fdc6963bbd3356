/** What can be written at the cursor, the likeliest first. */
import type { SourceFile } from "../../finding.ts";
import { isFittedRecord, relativePath } from "../../site/paths.ts";
import type { Day, Site } from "../../site/site.ts";
import { credentialLine, holderWords } from "../holder-words.ts";
import { keypadWords, modelWords } from "../keypad-words.ts";
import { meaningOf, meaningOfField } from "../meanings.ts";
import type { Cursor } from "./cursor.ts";
import { cursorAt } from "./cursor.ts";
import { declarationSuggestions, doorSuggestions } from "./declarations.ts";
import { fedSuggestions, unitSuggestions } from "./door-facts.ts";
import { entrySuggestions } from "./entries.ts";
import { keypadSuggestions, modelSuggestions } from "./keypad-facts.ts";
import { keywordSuggestions } from "./keywords.ts";
import { modelFactSuggestions } from "./model-facts.ts";
import type { About, Suggestion } from "./suggestion.ts";

export interface Suggestions {
  /** What a chosen suggestion takes the place of. */
  readonly replace: { readonly start: number; readonly end: number };
  readonly items: readonly Suggestion[];
}

/** @param files every text there is, for the paths of `use` */
export function suggestionsAt(site: Site, source: SourceFile, offset: number, files: Iterable<string>): Suggestions {
  const cursor = cursorAt(source, offset);
  const { word, quoted } = cursor;
  if (cursor.inComment) return { replace: word, items: [] };
  if (quoted) return { replace: quoted, items: quotedSuggestions(site, cursor, files) };
  const meant = meantAt(site, cursor);
  // What comes with places to fill in, or with a name, stands for its bare word.
  const labels = new Set(meant.flatMap(({ label }) => [label, label.split(" ")[0] ?? label]));
  // Said once in a site.
  if (!cursor.inBody && site.node) labels.add("site");
  if (!cursor.inBody && site.policy.node) labels.add("policy");
  const words = keywordSuggestions(cursor).filter(({ label }) => !labels.has(label));
  return { replace: word, items: [...meant, ...words].sort((one, other) => one.rank - other.rank) };
}

function meantAt(site: Site, cursor: Cursor): readonly Suggestion[] {
  const { declaration, inBody, relay, source } = cursor;
  const keypads = [...site.keypads.values()];
  switch (declaration?.kind) {
    case "keypad": {
      const keypad = keypads.find(({ node }) => node === declaration);
      if (relay) return entrySuggestions(site, keypad, relay, cursor);
      if (inBody) return keypadSuggestions(site, declaration, keypad, cursor);
      if (/:\s*$/.test(cursor.line)) return modelSuggestions(site);
      break;
    }
    case "model":
      if (inBody) return modelFactSuggestions(site, declaration, cursor);
      break;
    case "fitted":
      if (/^fitted\s+$/.test(cursor.line)) return keypadNames(site);
      if (inBody) return /^model\s+$/.test(cursor.line) ? modelSuggestions(site) : [];
      break;
    case "door":
      if (/^door\s+$/.test(cursor.line)) return doorSuggestions(site, false);
      if (inBody) return unitSuggestions(cursor);
      break;
    case "supply":
      if (inBody) return [...fedSuggestions(site, cursor), ...unitSuggestions(cursor)];
      if (/^supply\b/.test(cursor.line)) return unitSuggestions(cursor);
      break;
    case "site":
    case "policy":
      if (inBody) return [];
      break;
  }
  return cursor.isFirst && (cursor.atMargin || source.tree.declarations.length === 0) ? declarationSuggestions(site) : [];
}

function keypadNames(site: Site): readonly Suggestion[] {
  return [...site.keypads.values()].map(({ id, label }, index) => ({
    kind: "keypad",
    label: id,
    detail: label,
    rank: index,
    about: { what: "keypad", name: id },
  }));
}

function quotedSuggestions(site: Site, cursor: Cursor, files: Iterable<string>): readonly Suggestion[] {
  const { line, declaration, source } = cursor;
  const before = line.slice(0, line.lastIndexOf('"') < 0 ? line.length : line.indexOf('"')).trimEnd();
  if (before === "use") {
    const others = [...files].filter(file => file !== source.file && !isFittedRecord(file));
    return others.map((file, index) => ({ kind: "file", label: relativePath(source.file, file), rank: index }));
  }
  const labels = [...new Set([...site.keypads.values()].flatMap(({ relays }) => relays.flatMap(({ label }) => label ?? [])))];
  const doors = (): readonly Suggestion[] => labels.map((label, index) => ({ kind: "door", label, rank: index }));
  if (before === "door" || /^relay\s[\d+\s]+$/.test(`${before} `) || (declaration?.kind === "supply" && /^feeds\b/.test(line)))
    return doors();
  if (before === "setting" && declaration?.kind === "keypad") {
    const model = declaration.model && site.models.get(declaration.model.text);
    return [...(model?.settings.keys() ?? [])].map((label, index) => ({ kind: "setting", label, rank: index }));
  }
  return [];
}

/** More of a suggestion, as Markdown; worked out only for the one that is looked at. */
export function describe(site: Site, about: About, today: Day): string | undefined {
  switch (about.what) {
    case "holder": {
      const holder = site.holders.get(about.name);
      return holder && holderWords(site, holder, today);
    }
    case "credential": {
      const credential = site.holders.get(about.holder)?.credentials.find(({ name }) => name === about.name);
      return credential && credentialLine(site, credential, today);
    }
    case "model": {
      const model = site.models.get(about.name);
      return model && modelWords(site, model);
    }
    case "keypad": {
      const keypad = site.keypads.get(about.name);
      return keypad && keypadWords(keypad, undefined);
    }
    case "field":
      return meaningOfField(about.name);
    case "word":
      return meaningOf(about.name, "");
  }
}
