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
  const opens = new Map<string, Set<string>>();
  const asleep: Asleep[] = [...deaf];
  let blocksEnter: Stored | undefined;
  for (const string of strings) {
    const winner = listener.beaten(string);
    if (string.stored.is === "enter") blocksEnter = winner?.stored ?? listener.sameAs(string);
    else if (winner) asleep.push({ stored: string.stored, why: "shadowed", by: winner.stored });
    else {
      const text = textOf(string.symbols);
      const relays = opens.get(text) ?? new Set();
      for (const relay of relaysOf(string.fires ?? "")) if (relay) relays.add(relay);
      opens.set(text, relays);
    }
  }
  return {
    fires: acts => listener.hear(acts).fired,
    enters: acts => listener.hear(acts).entered,
    opens: new Map([...opens].map(([text, relays]) => [text, [...relays].sort((a, b) => Number(a) - Number(b))])),
    asleep,
    ...(blocksEnter ? { blocksEnter } : {}),
  };
}

/** What is keyed or presented → single relays: `48291` → 1, `1B91827` → 1, `tag:8061261` → 2. What is shadowed is left out. */
export function opens(model: Model, memory: Memory): ReadonlyMap<string, readonly string[]> {
  return doorOf(model, memory).opens;
}

/** Stored things that never fire, each with what beats it where something does. */
export function shadowedBy(model: Model, memory: Memory): readonly Asleep[] {
  return doorOf(model, memory).asleep;
}

interface Node {
  readonly next: Map<string, Node>;
  readonly ends: OpenString[];
  readonly depth: number;
  /** The node of the longest proper ending of this node's keys that is a beginning of something; undefined at the root. */
  suffix?: Node;
  /** The shortest and the longest complete string that this node's keys end in. */
  shortest?: Node;
  longest?: Node;
}

class Listener {
  readonly #root: Node = { next: new Map(), ends: [], depth: 0 };
  readonly #lastKeys: boolean;
  readonly #atOnce: boolean;

  constructor(model: Model, strings: readonly OpenString[]) {
    this.#lastKeys = model.listens === "to the last keys";
    this.#atOnce = model.acts === "at once";
    for (const string of strings) {
      let node = this.#root;
      for (const symbol of string.symbols) {
        let next = node.next.get(symbol);
        if (!next) {
          next = { next: new Map(), ends: [], depth: node.depth + 1 };
          node.next.set(symbol, next);
        }
        node = next;
      }
      if (node !== this.#root) node.ends.push(string);
    }
    this.#link();
  }

  /** Aho and Corasick, "Efficient string matching", Communications of the ACM 18 (1975): endings of what was keyed that begin something. */
  #link(): void {
    const queue: Node[] = [this.#root];
    for (let i = 0; i < queue.length; i++) {
      const node = queue[i] as Node;
      for (const [symbol, next] of node.next) {
        next.suffix = node === this.#root ? this.#root : this.#goOn(node.suffix ?? this.#root, symbol);
        queue.push(next);
      }
      const own = node.ends.length ? node : undefined;
      const shorter = this.#lastKeys ? node.suffix : undefined;
      const shortest = shorter?.shortest ?? own;
      const longest = own ?? shorter?.longest;
      if (shortest) node.shortest = shortest;
      if (longest) node.longest = longest;
    }
  }

  #goOn(from: Node, symbol: string): Node {
    for (let node: Node | undefined = from; node; node = node.suffix) {
      const next = node.next.get(symbol);
      if (next) return next;
    }
    return this.#root;
  }

  /** The string that the keypad acts on instead when this one is keyed; undefined where it acts on this one. */
  beaten(string: OpenString): OpenString | undefined {
    if (!this.#atOnce) return undefined;
    let node: Node | undefined = this.#root;
    for (const symbol of string.symbols) {
      node = node?.next.get(symbol);
      const winner: Node | undefined = node?.shortest;
      if (winner && winner.depth < string.symbols.length) return winner.ends[0];
    }
    return undefined;
  }

  /** Something stored that is keyed exactly as this is. */
  sameAs(string: OpenString): Stored | undefined {
    let node: Node | undefined = this.#root;
    for (const symbol of string.symbols) node = node?.next.get(symbol);
    return node?.ends.find(other => other.stored !== string.stored)?.stored;
  }

  hear(acts: readonly Act[]): { readonly fired: readonly RelaySet[]; readonly entered: boolean } {
    const fired = new Set<RelaySet>();
    let entered = false;
    let node: Node | undefined = this.#root;
    /** Keys from the first, after a pause: the longest complete string so far. */
    let best: Node | undefined;
    const act = (hit: Node | undefined) => {
      for (const { fires } of hit?.ends ?? []) if (fires !== undefined) for (const relay of relaysOf(fires)) fired.add(relay);
      entered = hit?.ends.every(({ stored }) => stored.is === "enter") ?? false;
      node = this.#root;
      best = undefined;
    };
    const pause = () => act(this.#atOnce ? undefined : this.#lastKeys ? node?.longest : best);

    for (const one of acts) {
      const symbol = symbolOf(one);
      if (symbol.startsWith("[wait") && !node?.next.has(symbol)) {
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
    if (this.#lastKeys) return this.#goOn(node ?? this.#root, symbol);
    const next = node?.next.get(symbol);
    return next ?? (symbol.startsWith("tag:") ? this.#root.next.get(symbol) : undefined);
  }
}

function symbolOf(act: Act): string {
  if ("press" in act) return act.press;
  return act.tag === undefined ? `[${act.hand}]` : `tag:${act.tag}`;
}
