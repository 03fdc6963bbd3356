/** The finite automaton of a model's entries: symbol by symbol, which entries can still be meant, and which one is complete. */
import type { Element } from "../../grammar/tree.ts";
import type { Alternative, FieldLengths, KeySymbol, Reading } from "./alternatives.ts";
import { alternativesOf, anyDigit } from "./alternatives.ts";
import type { Model } from "./model.ts";

/** Alternatives laid over each other by their beginnings. */
export interface TrieNode {
  readonly id: number;
  readonly next: Map<KeySymbol, TrieNode>;
  /** Alternatives that end here, in the order of the model. */
  readonly ends: Alternative[];
}

/** What has been read so far can be the beginning of these. Successors are worked out when first asked for, and kept. */
export interface State {
  readonly nodes: readonly TrieNode[];
  readonly next: Map<KeySymbol, State | undefined>;
  /** The entry that is complete, the first of the model's where there are several. */
  readonly end?: Alternative;
}

export interface Automaton {
  readonly root: TrieNode;
  readonly start: State;
  readonly states: Map<string, State>;
}

/** One automaton of all entries possible in programming mode; `cancel` is not one of them here, since it may stand inside one. */
export function programmingAutomaton(model: Model, lengths: FieldLengths): Automaton {
  return automatonOf(programmingAlternatives(model, lengths));
}

/** The automaton of `enter` alone: what is listened for outside programming mode. */
export function enterAutomaton(model: Model, lengths: FieldLengths): Automaton {
  const template = model.operations.get("enter")?.template;
  return automatonOf(template ? alternativesOf(model, { operation: "enter" }, template, lengths) : []);
}

/** Every alternative of every entry possible in programming mode, `leave` included, in the order of operations and then settings. */
export function programmingAlternatives(model: Model, lengths: FieldLengths): readonly Alternative[] {
  const found: Alternative[] = [];
  const add = (reading: Reading, template: readonly Element[], settingMax?: number) => {
    const own = reading.operation === "set installer" ? { ...lengths, code: model.installerLengths } : lengths;
    for (const alternative of alternativesOf(model, reading, template, own, settingMax))
      found.push({ ...alternative, order: found.length });
  };
  for (const { operation, template } of model.operations.values()) {
    if (operation !== "enter" && !operation.startsWith("open ")) add({ operation }, template);
  }
  for (const { label, template, max } of model.settings.values()) add({ operation: "set setting", label }, template, max);
  return found;
}

export function automatonOf(alternatives: readonly Alternative[]): Automaton {
  const root: TrieNode = { id: 0, next: new Map(), ends: [] };
  let nodes = 1;
  for (const alternative of alternatives) {
    let node = root;
    for (const symbol of alternative.symbols) {
      let next = node.next.get(symbol);
      if (!next) {
        next = { id: nodes++, next: new Map(), ends: [] };
        node.next.set(symbol, next);
      }
      node = next;
    }
    // An entry without keys would be complete before it begins.
    if (node !== root) node.ends.push(alternative);
  }
  return { root, start: { nodes: [root], next: new Map() }, states: new Map() };
}

/** The state after one more symbol; undefined where no entry goes on with it. */
export function step(automaton: Automaton, state: State, symbol: KeySymbol): State | undefined {
  if (state.next.has(symbol)) return state.next.get(symbol);
  const nodes: TrieNode[] = [];
  for (const node of state.nodes) {
    const exact = node.next.get(symbol);
    if (exact) nodes.push(exact);
    const digit = /^[0-9]$/.test(symbol) ? node.next.get(anyDigit) : undefined;
    if (digit) nodes.push(digit);
  }
  const next = nodes.length ? stateOf(automaton, nodes) : undefined;
  state.next.set(symbol, next);
  return next;
}

function stateOf(automaton: Automaton, nodes: readonly TrieNode[]): State {
  const key = nodes.map(node => node.id).join();
  const known = automaton.states.get(key);
  if (known) return known;
  const ends = nodes.flatMap(node => node.ends);
  const end = ends.length > 1 ? firstOfModel(ends) : ends[0];
  const state: State = { nodes, next: new Map(), ...(end ? { end } : {}) };
  automaton.states.set(key, state);
  return state;
}

/** Of entries that the same keys complete, the one that the model says first; fields as short as can be where it is one entry. */
function firstOfModel(ends: readonly Alternative[]): Alternative | undefined {
  return ends.reduce((first, end) => (end.order < first.order ? end : first));
}
