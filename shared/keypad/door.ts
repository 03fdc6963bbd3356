/**
 * The door recogniser: what fires when a person keys or presents something in everyday use. All stored strings lie in one tree,
 * so that it is about linear in their number.
 */
import type { Act, Memory } from "./memory.ts";
import type { Model, RelaySet } from "./model.ts";
import type { Deaf, OpenString, Stored } from "./open-strings.ts";
import { openStrings, textOf } from "./open-strings.ts";
import { relaysOf } from "./relay-set.ts";

/** Something stored that never fires when it is keyed, and why. `shadowed`: the keypad has acted on `by` before it is complete. */
export interface Asleep {
  readonly stored: Stored;
  readonly why: Deaf["why"] | "shadowed";
  readonly by?: Stored;
}

export interface Door {
  /**
   * Single relays that fire, in order, each once. The end of the acts is a pause; `[wait …]` is one too.
   *
   * Keys from the first: after a wrong beginning nothing is heard until a pause, but a tag presented is a beginning of its own.
   * After something has fired, what was keyed is forgotten.
   */
  fires(acts: readonly Act[]): readonly RelaySet[];
  /** Whether the acts end in programming mode. */
  enters(acts: readonly Act[]): boolean;
  /** What can be keyed or presented, as text, and the single relays that it fires, ascending. */
  readonly opens: ReadonlyMap<string, readonly string[]>;
  readonly asleep: readonly Asleep[];
  /** What keeps the `enter` string from entering; undefined where it enters, or where no installer code is known. */
  readonly blocksEnter?: Stored;
}

/** The door of a keypad that holds `memory`. */
export function doorOf(model: Model, memory: Memory): Door {
  const { strings, deaf } = openStrings(model, memory);
  const listener = new Listener(model, strings);
  const opens = new Map<string, readonly string[]>();
  const asleep: Asleep[] = [...deaf];
  let blocksEnter: Stored | undefined;
  for (const string of strings) {
    const winner = listener.beaten(string);
    if (string.stored.is === "enter") blocksEnter = winner?.stored ?? listener.sameAs(string);
    else if (winner) asleep.push({ stored: string.stored, why: "shadowed", by: winner.stored });
    else {
      const text = textOf(string.symbols);
      opens.set(text, ascending(opens.get(text), string.fires ?? ""));
    }
  }
  return {
    fires: acts => listener.hear(acts).fired,
    enters: acts => listener.hear(acts).entered,
    opens,
    asleep,
    ...(blocksEnter ? { blocksEnter } : {}),
  };
}

/** The single relays that fire already, and those of a set, each once and the lowest first. */
function ascending(before: readonly string[] | undefined, fires: RelaySet): readonly string[] {
  if (fires === "") return before ?? [];
  // Sets are in this order already.
  const relays = relaysOf(fires);
  return before ? [...new Set([...before, ...relays])].sort((a, b) => Number(a) - Number(b)) : relays;
}

/** What is keyed or presented → single relays: `48291` → 1, `1B91827` → 1, `tag:8061261` → 2. What is shadowed is left out. */
export function opens(model: Model, memory: Memory): ReadonlyMap<string, readonly string[]> {
  return doorOf(model, memory).opens;
}

/** Stored things that never fire, each with what beats it where something does. */
export function shadowedBy(model: Model, memory: Memory): readonly Asleep[] {
  return doorOf(model, memory).asleep;
}

/** Keys that begin something, as a node of a tree of keys. */
interface Node {
  readonly symbol: string;
  readonly depth: number;
  /** Nearly every node has one after it at most: the others, where there are any, stand by symbol. */
  next?: Node;
  others?: Map<string, Node>;
  /** What is complete here. */
  ends: OpenString[] | undefined;
  /** The node of the longest proper ending of this node's keys that is a beginning of something; undefined at the root. */
  suffix?: Node;
  /** The shortest and the longest complete string that this node's keys end in. */
  shortest: Node | undefined;
  longest: Node | undefined;
}

function nodeOf(symbol: string, depth: number): Node {
  return { symbol, depth, ends: undefined, shortest: undefined, longest: undefined };
}

function after(node: Node | undefined, symbol: string): Node | undefined {
  return node?.next?.symbol === symbol ? node.next : node?.others?.get(symbol);
}

class Listener {
  readonly #strings: readonly OpenString[];
  readonly #lastKeys: boolean;
  readonly #atOnce: boolean;
  #tree: Node | undefined;
  /** By its first symbol, how long the shortest string is. */
  readonly #shortest = new Map<string, number>();

  constructor(model: Model, strings: readonly OpenString[]) {
    this.#lastKeys = model.listens === "to the last keys";
    this.#atOnce = model.acts === "at once";
    this.#strings = strings;
    if (!this.#atOnce || this.#lastKeys) return;
    for (const { symbols } of strings) {
      const first = symbols[0] ?? "";
      if (symbols.length < (this.#shortest.get(first) ?? Number.POSITIVE_INFINITY)) this.#shortest.set(first, symbols.length);
    }
  }

  /** Made when it is first asked for, which for most keypads nobody does. */
  get #root(): Node {
    this.#tree ??= this.#planted();
    return this.#tree;
  }

  #planted(): Node {
    const root = nodeOf("", 0);
    for (const string of this.#strings) {
      let node = root;
      for (const symbol of string.symbols) {
        let next = after(node, symbol);
        if (!next) {
          next = nodeOf(symbol, node.depth + 1);
          if (node.next) {
            node.others ??= new Map();
            node.others.set(symbol, next);
          } else node.next = next;
        }
        node = next;
      }
      if (node === root) continue;
      node.ends ??= [];
      node.ends.push(string);
      node.shortest = node;
      node.longest = node;
    }
    if (this.#lastKeys) link(root);
    return root;
  }

  /** The string that the keypad acts on instead when this one is keyed; undefined where it acts on this one. */
  beaten(string: OpenString): OpenString | undefined {
    if (!this.#atOnce) return undefined;
    // Where codes have one length, none of them is the beginning of another.
    if (!this.#lastKeys && string.symbols.length <= (this.#shortest.get(string.symbols[0] ?? "") ?? 0)) return undefined;
    let node: Node | undefined = this.#root;
    for (const symbol of string.symbols) {
      node = after(node, symbol);
      const winner: Node | undefined = node?.shortest;
      if (winner && winner.depth < string.symbols.length) return winner.ends?.[0];
    }
    return undefined;
  }

  /** Something stored that is keyed exactly as this is. */
  sameAs(string: OpenString): Stored | undefined {
    const { symbols, stored } = string;
    const isSame = (other: OpenString) =>
      other.symbols.length === symbols.length && other.symbols.every((symbol, index) => symbol === symbols[index]);
    return this.#strings.find(other => other.stored !== stored && isSame(other))?.stored;
  }

  hear(acts: readonly Act[]): { readonly fired: readonly RelaySet[]; readonly entered: boolean } {
    const fired = new Set<RelaySet>();
    let entered = false;
    let node: Node | undefined = this.#root;
    /** Keys from the first, after a pause: the longest complete string so far. */
    let best: Node | undefined;
    const act = (hit: Node | undefined) => {
      for (const { fires } of hit?.ends ?? []) if (fires !== undefined) for (const relay of relaysOf(fires)) fired.add(relay);
      entered = hit?.ends?.every(({ stored }) => stored.is === "enter") ?? false;
      node = this.#root;
      best = undefined;
    };
    const pause = () => act(this.#atOnce ? undefined : this.#lastKeys ? node?.longest : best);

    for (const one of acts) {
      const symbol = symbolOf(one);
      if (symbol.startsWith("[wait") && !after(node, symbol)) {
        pause();
        if (entered) break;
        continue;
      }
      node = this.#after(node, symbol);
      if (this.#atOnce && node?.shortest) act(node.shortest);
      else if (!this.#lastKeys && node?.longest) best = node.longest;
      else if (!this.#lastKeys && node?.depth === 1) best = undefined;
      if (entered) break;
    }
    if (!entered) pause();
    return { fired: [...fired], entered };
  }

  #after(node: Node | undefined, symbol: string): Node | undefined {
    if (this.#lastKeys) return goOn(node ?? this.#root, symbol) ?? this.#root;
    return after(node, symbol) ?? (symbol.startsWith("tag:") ? after(this.#root, symbol) : undefined);
  }
}

/** Aho and Corasick, "Efficient string matching", Communications of the ACM 18 (1975): endings of what was keyed that begin something. */
function link(root: Node): void {
  const queue: Node[] = [root];
  for (const node of queue) {
    for (const next of node.next ? [node.next, ...(node.others?.values() ?? [])] : []) {
      next.suffix = (node.suffix && goOn(node.suffix, next.symbol)) ?? root;
      queue.push(next);
    }
    node.shortest = node.suffix?.shortest ?? node.shortest;
    node.longest ??= node.suffix?.longest;
  }
}

/** The longest ending that goes on with a symbol; undefined where none does. */
function goOn(from: Node, symbol: string): Node | undefined {
  for (let node: Node | undefined = from; node; node = node.suffix) {
    const next = after(node, symbol);
    if (next) return next;
  }
  return undefined;
}

function symbolOf(act: Act): string {
  if ("press" in act) return act.press;
  return act.tag === undefined ? `[${act.hand}]` : `tag:${act.tag}`;
}
