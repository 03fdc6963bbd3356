/**
 * Where a model's entries cannot be told apart: two accept the same keys, or the keys of one are the beginning of another's.
 *
 * Exact: the automaton is squared. All alternatives lie over each other in one tree, and every pair of its nodes that some keys
 * reach together is looked at. Equal values of a field that stands twice are compared after the match and so do not count here;
 * the witness has them equal where that is possible.
 */
import type { Span } from "../../grammar/tree.ts";
import type { Alternative, FieldLengths, KeySymbol, Reading } from "./alternatives.ts";
import { alternativesOf, anyDigit } from "./alternatives.ts";
import type { TrieNode } from "./automaton.ts";
import { automatonOf, programmingAlternatives } from "./automaton.ts";
import { codeLengthsInForce, installerLengthsInForce } from "./lengths.ts";
import type { Act } from "./memory.ts";
import type { Model } from "./model.ts";
import { witnessOf } from "./witness.ts";

export interface Ambiguity {
  /** Complete at `completeAfter` of the witness; for `same keys` at its end. */
  readonly first: Reading;
  /** Complete at the end of the witness. */
  readonly second: Reading;
  readonly kind: "same keys" | "beginning";
  /** Keys and hand actions that are taken twice. No stored code is in it. */
  readonly witness: readonly Act[];
  readonly completeAfter: number;
  /** The code lengths in force with which it happens; empty where the length is not a matter of what is in force. */
  readonly codeLengths: readonly number[];
}

/** All pairs of entries that cannot be told apart, each once, in the order of the model. */
export function ambiguities(model: Model): readonly Ambiguity[] {
  const found = new Map<string, Ambiguity>();
  for (const { codeLength, lengths } of lengthsToTry(model)) {
    for (const ambiguity of squared(model, lengths)) {
      const key = [ambiguity.kind, name(ambiguity.first), name(ambiguity.second)].join("\n");
      const before = found.get(key) ?? ambiguity;
      const codeLengths = new Set([...before.codeLengths, ...(codeLength === undefined ? [] : [codeLength])]);
      found.set(key, { ...before, codeLengths: [...codeLengths] });
    }
  }
  return [...found.values()];
}

/** Where the model says an entry: the words of an operation, a setting's label, `cancel`. */
export function spanOf(model: Model, reading: Reading): Span {
  for (const fact of model.decl.facts) {
    if (fact.kind === "operation" && fact.operation === reading.operation) return fact.name;
    if (fact.kind === "setting-def" && fact.label !== undefined && fact.label.text === reading.label) return fact.label;
    if (fact.kind === "cancel" && reading.operation === "cancel") return fact.keyword;
  }
  return model.decl.keyword;
}

/**
 * The lengths in force that there can be together. Those of codes and of the installer code are not always one: where the length is `set by
 * entry`, an installer code of the length before it still enters, and one of any length that the model takes can be set.
 */
function lengthsToTry(model: Model): readonly { readonly codeLength?: number; readonly lengths: FieldLengths }[] {
  const shared = model.length === "free" || model.length === "one";
  const tried = new Map<string, { readonly codeLength?: number; readonly lengths: FieldLengths }>();
  for (const codeLength of model.length === "set by entry" ? model.codeLengths : [undefined]) {
    for (const installerLength of model.installerLengths) {
      const force = { installer: "0".repeat(installerLength), ...(codeLength === undefined ? {} : { codeLength }) };
      const lengths = { code: codeLengthsInForce(model, force), installer: installerLengthsInForce(model, force) };
      const [inForce] = lengths.code;
      tried.set(`${lengths.code} ${lengths.installer}`, { lengths, ...(shared || inForce === undefined ? {} : { codeLength: inForce }) });
    }
  }
  return [...tried.values()];
}

/** Everything that can be typed in programming mode as an entry of its own, `leave` and `cancel` included. */
function comparedAlternatives(model: Model, lengths: FieldLengths): readonly Alternative[] {
  const entries = programmingAlternatives(model, lengths);
  const cancel = alternativesOf(model, { operation: "cancel" }, model.cancel, lengths);
  return [...entries, ...cancel.map(alternative => ({ ...alternative, order: entries.length }))];
}

function squared(model: Model, lengths: FieldLengths): readonly Ambiguity[] {
  const { root } = automatonOf(comparedAlternatives(model, lengths));
  const digits = [...model.keys].filter(key => /^[0-9]$/.test(key));
  const found = new Map<string, Ambiguity>();
  const below = new Below();
  const meet = (first: Alternative, second: Alternative) => {
    const kind = first.symbols.length === second.symbols.length ? "same keys" : "beginning";
    const key = [kind, name(first.reading), name(second.reading)].join("\n");
    const mirrored = [kind, name(second.reading), name(first.reading)].join("\n");
    if (found.has(key) || (kind === "same keys" && found.has(mirrored))) return;
    found.set(key, {
      first: first.reading,
      second: second.reading,
      kind,
      witness: witnessOf(first, second, digits),
      completeAfter: first.symbols.length,
      codeLengths: [],
    });
  };

  const seen = new Set<string>();
  const waiting: (readonly [TrieNode, TrieNode])[] = [[root, root]];
  for (let pair = waiting.pop(); pair; pair = waiting.pop()) {
    const [a, b] = pair;
    for (const first of a.ends) {
      for (const second of b.ends) if (first !== second) meet(...inOrder(first, second));
      for (const second of below.of(b)) meet(first, second);
    }
    if (a !== b) for (const first of b.ends) for (const second of below.of(a)) meet(first, second);
    for (const [one, nextA] of a.next) {
      for (const [other, nextB] of b.next) {
        if (!overlap(one, other, digits)) continue;
        const [low, high] = nextA.id <= nextB.id ? [nextA, nextB] : [nextB, nextA];
        const key = `${low.id} ${high.id}`;
        if (seen.has(key)) continue;
        seen.add(key);
        waiting.push([low, high]);
      }
    }
  }
  return [...found.values()];
}

function inOrder(first: Alternative, second: Alternative): readonly [Alternative, Alternative] {
  return first.order <= second.order ? [first, second] : [second, first];
}

function overlap(one: KeySymbol, other: KeySymbol, digits: readonly string[]): boolean {
  if (one === other) return one !== anyDigit || digits.length > 0;
  return (one === anyDigit && digits.includes(other)) || (other === anyDigit && digits.includes(one));
}

/** One alternative of each entry that goes on below a node. */
class Below {
  readonly #known = new Map<TrieNode, readonly Alternative[]>();

  of(node: TrieNode): readonly Alternative[] {
    const known = this.#known.get(node);
    if (known) return known;
    const found = new Map<string, Alternative>();
    for (const next of node.next.values()) {
      for (const end of [...next.ends, ...this.of(next)]) if (!found.has(name(end.reading))) found.set(name(end.reading), end);
    }
    const all = [...found.values()];
    this.#known.set(node, all);
    return all;
  }
}

function name(reading: Reading): string {
  return reading.label === undefined ? reading.operation : `${reading.operation} "${reading.label}"`;
}
