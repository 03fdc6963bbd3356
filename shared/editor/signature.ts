/** What an operation of a model still needs, shown while its keys are typed. */
import type { ModelDecl, ModelFact } from "../../grammar/tree.ts";
import type { SourceFile } from "../finding.ts";
import { ruleOf } from "../keypad/template-fields.ts";
import type { Site } from "../site/site.ts";
import { meaningOf, meaningOfField } from "./meanings.ts";

export interface Signature {
  /** `put code {code} {slot} {relay}`. */
  readonly label: string;
  readonly documentation?: string;
  /** Each a stretch of `label`, with what it stands for. */
  readonly fields: readonly { readonly start: number; readonly end: number; readonly documentation?: string }[];
  /** Index of the field at the cursor, or of the first that is still missing; undefined when nothing is. */
  readonly active?: number;
}

type Typed = Extract<ModelFact, { kind: "operation" | "setting-def" }>;

/** Undefined outside an operation, and while the model's `slots` or `codes` are not written yet. */
export function signatureAt(site: Site, { tree, text }: SourceFile, offset: number): Signature | undefined {
  const decl = tree.declarations.find((each): each is ModelDecl => each.kind === "model" && each.start <= offset && offset <= each.end);
  const fact = decl?.facts.find(
    (each): each is Typed => isTyped(each) && each.start <= offset && !/[\r\n]/.test(text.slice(each.end, offset)),
  );
  const model = decl?.name && site.models.get(decl.name.text);
  if (!fact || !model || offset < nameEnd(fact) || isInText(fact, offset)) return undefined;
  const { needs, may } = ruleOf(model, fact.kind === "operation" ? fact.operation : "setting");
  const words = fact.kind === "operation" ? fact.operation : `setting ${fact.label ? `"${fact.label.text}"` : ""}`.trim();

  const fields: { name: string; start: number; end: number; documentation?: string }[] = [];
  let label = words;
  for (const name of needs) {
    const written = name === "tag" ? "[present tag]" : `{${name}}`;
    const documentation = meaningOfField(name);
    fields.push({
      name,
      start: label.length + 1,
      end: label.length + 1 + written.length,
      ...(documentation !== undefined && { documentation }),
    });
    label += ` ${written}`;
  }
  const meaning = meaningOf(fact.keyword.text, "model");
  const more = may.length > 0 ? `It may also have ${may.map(name => `{${name}}`).join(", ")}.` : undefined;
  const documentation = [meaning, more].filter(Boolean).join(" ");
  const active = activeField(fact, offset, needs);
  return {
    label,
    ...(documentation && { documentation }),
    fields: fields.map(({ name: _name, ...field }) => field),
    ...(active >= 0 && { active }),
  };
}

function isTyped(fact: ModelFact): fact is Typed {
  return fact.kind === "operation" || fact.kind === "setting-def";
}

function nameEnd(fact: Typed): number {
  return fact.kind === "operation" ? fact.name.end : (fact.label ?? fact.keyword).end;
}

/** What it shows is no part of its keys. */
function isInText({ shows }: Typed, offset: number): boolean {
  return shows !== undefined && shows.start < offset;
}

/** The field that the cursor is in, or else the first that is not there yet; -1 when all are. */
function activeField({ template }: Typed, offset: number, needs: readonly string[]): number {
  const there = template.map(element => ({ ...element, need: needOf(element) }));
  const here = there.find(({ start, end, need }) => need !== undefined && start < offset && offset < end);
  if (here?.need !== undefined && needs.includes(here.need)) return needs.indexOf(here.need);
  const written = new Set(there.map(({ need }) => need));
  return needs.findIndex(need => !written.has(need));
}

function needOf(element: Typed["template"][number]): string | undefined {
  if (element.kind === "hand") return /^present\b/.test(element.text) ? "tag" : undefined;
  if (element.kind !== "field") return undefined;
  return element.name.text === "relay-number" ? "relay" : element.name.text;
}
