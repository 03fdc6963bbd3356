/** A keypad in a test: its model from text, keys as a person writes them, and what `mullion replay` would print. */
import { expect } from "vitest";
import { parse, parseKeys } from "../../grammar/parse.ts";
import type { FittedDecl, ModelDecl } from "../../grammar/tree.ts";
import { asText } from "../../server/cli/replay/text.ts";
import { actsOf, groupsOf, typedGroups } from "../../server/cli/replay/typed.ts";
import { compileModel } from "../../shared/keypad/compile.ts";
import { memoryOf } from "../../shared/keypad/fitted-memory.ts";
import type { Act, KeyGroup, Memory } from "../../shared/keypad/memory.ts";
import type { Model } from "../../shared/keypad/model.ts";
import { replay } from "../../shared/keypad/replay.ts";

/** The declaration of the first model in a text that the grammar takes without a problem. */
export function modelDecl(text: string): ModelDecl {
  const { tree, problems } = parse(text);
  expect(problems.map(problem => problem.message)).toEqual([]);
  const decl = tree.declarations.find(declaration => declaration.kind === "model");
  if (decl?.kind !== "model") throw new Error("the text has no model");
  return decl;
}

/** A model without anything wrong, save what it cannot do. */
export function modelOf(text: string): Model {
  const { model, problems } = compileModel(modelDecl(text), "/model.mullion");
  expect(problems.filter(problem => problem.severity === "error").map(problem => problem.message)).toEqual([]);
  if (!model) throw new Error("the model cannot be compiled");
  return model;
}

/** What a keypad of the model holds by these lines of a fitted record. */
export function memoryFrom(model: Model, facts: string): Memory {
  const { tree, problems } = parse(`fitted gate 2026-11-20 {\n${facts}\n}`);
  expect(problems.map(problem => problem.message)).toEqual([]);
  const read = memoryOf(model, (tree.declarations[0] as FittedDecl).facts);
  expect(read.problems.map(problem => problem.message)).toEqual([]);
  return read.memory;
}

/** Presses and hand actions, written as in a model: `7 4 01 48291 OK`, `[present tag 8061261]`. */
export function acts(keys: string): readonly Act[] {
  const { elements, problems } = parseKeys(keys);
  expect(problems).toEqual([]);
  return actsOf(elements).map(({ act }) => act);
}

export function written(groups: readonly KeyGroup[]): string {
  return groups.map(group => group.text).join(" ");
}

export function actsIn(groups: readonly KeyGroup[]): readonly Act[] {
  return groups.flatMap(group => group.acts);
}

/** What `mullion replay` prints for the keys, blanks at the ends of lines taken off. */
export function transcript(model: Model, keys: string, memory: Memory = model.factory): string {
  const typed = actsOf(parseKeys(keys).elements);
  const {
    steps,
    memory: after,
    unread,
  } = replay(
    model,
    memory,
    typed.map(({ act }) => act),
  );
  return asText(typedGroups(steps, typed), groupsOf(typed.slice(typed.length - unread.length)), after, model)
    .replaceAll(/ +→/g, " →")
    .trim();
}
