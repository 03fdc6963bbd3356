/** What can be said in a model: fields and keys inside an operation, operations that are still missing. */
import type { ModelDecl, OperationName } from "../../../grammar/tree.ts";
import type { Model } from "../../keypad/model.ts";
import { ruleOf } from "../../keypad/template-fields.ts";
import type { Site } from "../../site/site.ts";
import { meaningOfField } from "../meanings.ts";
import { signatureAt } from "../signature.ts";
import type { Cursor } from "./cursor.ts";
import type { Suggestion } from "./suggestion.ts";
import { place } from "./suggestion.ts";

export function modelFactSuggestions(site: Site, decl: ModelDecl, cursor: Cursor): readonly Suggestion[] {
  const model = decl.name && site.models.get(decl.name.text);
  if (!cursor.isFirst) return insideOperation(site, model, cursor);
  return model ? missingOperations(model) : [];
}

/** Fields that the operation needs, the next first; then keys that the keypad has. */
function insideOperation(site: Site, model: Model | undefined, cursor: Cursor): readonly Suggestion[] {
  const signature = signatureAt(site, cursor.source, cursor.offset);
  if (!signature) return [];
  const isOpen = /\{$/.test(cursor.line);
  const isClosed = cursor.source.text[cursor.offset] === "}";
  const fields = signature.fields.map(({ start, end }, index): Suggestion => {
    const written = signature.label.slice(start, end);
    const name = written.replace(/[{}]/g, "");
    const rank = (index === signature.active ? 0 : 10) + index;
    if (written.startsWith("[")) return { kind: "field", label: written, rank };
    const meaning = meaningOfField(name);
    const text = isOpen ? (isClosed ? name : `${name}}`) : written;
    return { kind: "field", label: isOpen ? name : written, text, rank, ...(meaning && { about: { what: "field", name } }) };
  });
  if (isOpen) return fields.filter(({ label }) => !label.startsWith("["));
  const named = [...(model?.keys ?? [])].filter(key => /^[A-Z]/.test(key));
  const shows: Suggestion = { kind: "keyword", label: "shows", snippet: 'shows "$0"', rank: 300, about: { what: "word", name: "shows" } };
  return [...fields, ...named.map((label, index): Suggestion => ({ kind: "field", label, detail: "a key", rank: 100 + index })), shows];
}

const common: readonly OperationName[] = [
  "enter",
  "leave",
  "put code",
  "put tag",
  "clear slot",
  "clear code",
  "clear tag",
  "set installer",
  "set all-relay",
  "clear all-relay",
  "set release",
  "set length",
  "clear all",
  "open code",
  "open all-relay",
  "open tag",
  "open both",
];

/** Operations that the model does not have yet, with the fields that they need. */
function missingOperations(model: Model): readonly Suggestion[] {
  return common
    .filter(operation => !model.decl.facts.some(fact => fact.kind === "operation" && fact.operation === operation))
    .map((operation, index): Suggestion => {
      const needs = ruleOf(model, operation).needs.map(need => (need === "tag" ? "[present tag]" : `{${need}}`));
      const shows = operation.startsWith("open") ? "" : ' shows "$0"';
      const snippet = `${operation}  ${place(1, needs.join(" "))}${shows}`;
      return {
        kind: "snippet",
        label: operation,
        detail: "not said yet",
        snippet,
        rank: 50 + index,
        about: { what: "word", name: operation.split(" ")[0] ?? "" },
      };
    });
}
