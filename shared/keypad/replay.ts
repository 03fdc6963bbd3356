/**
 * A simulated keypad: reads presses and hand actions as the keypad would, entry by entry, and says what it took, what it
 * refused and why, and what it holds in the end. It knows nothing of how entries are encoded.
 */
import { anyDigit } from "./alternatives.ts";
import { apply } from "./apply.ts";
import type { Automaton, State } from "./automaton.ts";
import { enterAutomaton, programmingAutomaton, step } from "./automaton.ts";
import type { Draft } from "./draft.ts";
import { draftOf, freeze } from "./draft.ts";
import { codeLengthsInForce, installerLengthsInForce } from "./lengths.ts";
import type { Act, Memory, Operation, Refusal, RefusalKind, ReplayStep } from "./memory.ts";
import type { Model } from "./model.ts";
import type { Understood } from "./read-fields.ts";
import { understand } from "./read-fields.ts";

export interface Replay {
  readonly steps: readonly ReplayStep[];
  readonly memory: Memory;
  /** Half-typed: what stands at the end and is no entry yet. */
  readonly unread: readonly Act[];
  readonly inProgramming: boolean;
}

/**
 * Replays acts on a keypad that holds `memory`; linear in their number.
 *
 * Outside programming mode `enter` is heard wherever it stands; other keys are refused together, once, as `not-in-programming`. Inside, keys with
 * which no entry goes on are dropped up to and including the first such key and refused once as `unknown-keys`. `cancel` drops
 * what is half typed; where its keys could also go on with the entry, they go on with the entry. An entry is taken by its
 * shortest reading. `lapse` is not simulated: nothing here knows how long a person waits.
 *
 * @param inProgramming start inside programming mode, as if `enter` had just been taken.
 */
export function replay(model: Model, memory: Memory, acts: Iterable<Act>, inProgramming = false): Replay {
  const keypad = new SimulatedKeypad(model, memory, inProgramming);
  for (const act of acts) keypad.feel(act);
  return keypad.result();
}

class SimulatedKeypad {
  readonly #model: Model;
  readonly #draft: Draft;
  readonly #steps: ReplayStep[] = [];
  readonly #cancel: readonly string[];
  #programming: boolean;
  #automaton: Automaton;
  /** Undefined inside a half-typed entry that only `cancel` can still end. */
  #state: State | undefined;
  /** How far each `cancel` that may have begun has come. */
  #cancelling: number[] = [];
  /** Acts since the last entry ended. */
  #held: Act[] = [];
  /** Outside programming mode: acts that did not enter it, not yet reported. */
  #passed: Act[] = [];

  constructor(model: Model, memory: Memory, inProgramming: boolean) {
    this.#model = model;
    this.#draft = draftOf(memory);
    this.#cancel = cancelSymbols(model);
    this.#programming = inProgramming;
    this.#automaton = this.#automatonNow();
    this.#state = this.#automaton.start;
  }

  feel(act: Act): undefined {
    const symbol = symbolOf(act);
    this.#held.push(act);
    const next = this.#state && this.#knows(symbol) ? step(this.#automaton, this.#state, symbol) : undefined;
    if (!this.#programming) return this.#outside(next);
    const cancelled = this.#advanceCancel(symbol);
    if (next?.end) this.#entry(understand(this.#model, next.end, this.#held));
    else if (next) this.#state = next;
    else if (cancelled) this.#report({ operation: "cancel" }, undefined);
    else if (this.#cancelling.length) this.#state = undefined;
    else this.#report({ operation: "unknown keys" }, { kind: "unknown-keys" });
  }

  result(): Replay {
    this.#reportPassed();
    return { steps: this.#steps, memory: freeze(this.#draft), unread: this.#held, inProgramming: this.#programming };
  }

  #outside(next: State | undefined): undefined {
    if (!next) this.#listenAfresh();
    else if (!next.end) this.#state = next;
    else {
      this.#reportPassed();
      const { installer, differ } = understand(this.#model, next.end, this.#held);
      const wrong = this.#draft.installer !== undefined && installer !== this.#draft.installer;
      if (!differ && !wrong) {
        // An installer code that nobody knew is known once it has entered.
        this.#draft.installer ??= installer;
        this.#programming = true;
      }
      this.#report({ operation: "enter" }, differ ? { kind: "values-differ" } : wrong ? { kind: "wrong-installer-code" } : undefined);
    }
  }

  /** Outside programming mode `enter` is heard wherever it stands: only as many keys are passed over as cannot begin it. */
  #listenAfresh(): void {
    const heard = this.#held;
    for (let from = 1; from <= heard.length; from++) {
      let state: State | undefined = this.#automaton.start;
      for (let at = from; at < heard.length && state; at++) state = step(this.#automaton, state, symbolOf(heard[at] as Act));
      if (!state) continue;
      for (const act of heard.slice(0, from)) this.#passed.push(act);
      this.#held = heard.slice(from);
      this.#state = state;
      return;
    }
  }

  #entry(understood: Understood): void {
    const { operation } = understood;
    const refusal = this.#refusalOf(understood);
    if (!refusal && operation.operation === "leave") this.#programming = false;
    if (!refusal && this.#model.session === "one entry") this.#programming = false;
    this.#report(operation, refusal);
  }

  /** What is wrong with what was typed comes before what is wrong with the memory. */
  #refusalOf({ operation, installer, differ, tagTooLarge }: Understood): Refusal | undefined {
    const because = (kind: RefusalKind): Refusal => ({
      kind,
      ...("slot" in operation && operation.slot !== undefined ? { slot: operation.slot } : {}),
      ...("relay" in operation && operation.relay !== undefined ? { relay: operation.relay } : {}),
    });
    if (differ) return because("values-differ");
    if (installer !== undefined && this.#draft.installer !== undefined && installer !== this.#draft.installer) {
      return because("wrong-installer-code");
    }
    if (tagTooLarge) return because("setting-range");
    return isProgrammed(operation) ? apply(this.#model, this.#draft, operation) : undefined;
  }

  #report(operation: ReplayStep["operation"], refusal: Refusal | undefined): void {
    const acts = this.#held;
    this.#steps.push(refusal ? { operation, acts, taken: false, refusal } : { operation, acts, taken: true });
    this.#begin();
  }

  #reportPassed(): void {
    if (this.#passed.length === 0) return;
    const acts = this.#passed;
    this.#passed = [];
    this.#steps.push({ operation: { operation: "unknown keys" }, acts, taken: false, refusal: { kind: "not-in-programming" } });
  }

  #begin(): void {
    this.#held = [];
    this.#cancelling = [];
    this.#automaton = this.#automatonNow();
    this.#state = this.#automaton.start;
  }

  #automatonNow(): Automaton {
    return cachedAutomaton(this.#model, this.#draft, this.#programming);
  }

  #knows(symbol: string): boolean {
    return symbol.startsWith("[") || this.#model.keys.has(symbol);
  }

  /** Whether the acts so far end in the whole of `cancel`. */
  #advanceCancel(symbol: string): boolean {
    if (this.#cancelling.length === 0 && this.#cancel[0] !== symbol) return false;
    this.#cancelling = [...this.#cancelling, 0].filter(at => this.#cancel[at] === symbol).map(at => at + 1);
    return this.#cancelling.includes(this.#cancel.length);
  }
}

function isProgrammed(operation: Understood["operation"]): operation is Operation {
  return operation.operation !== "enter" && operation.operation !== "leave";
}

function cancelSymbols(model: Model): readonly string[] {
  return model.cancel.flatMap(element => {
    if (element.kind === "keys") return /^[0-9]+$/.test(element.text) ? [...element.text] : [element.text];
    return element.kind === "hand" ? [`[${element.text}]`] : [anyDigit];
  });
}

/** A key by its name; a hand action in brackets, whichever tag it presents. */
function symbolOf(act: Act): string {
  return "press" in act ? act.press : `[${act.hand}]`;
}

const automata = new WeakMap<Model, Map<string, Automaton>>();

function cachedAutomaton(model: Model, draft: Draft, programming: boolean): Automaton {
  const force = {
    ...(draft.installer === undefined ? {} : { installer: draft.installer }),
    ...(draft.codeLength === undefined ? {} : { codeLength: draft.codeLength }),
  };
  const lengths = { code: codeLengthsInForce(model, force), installer: installerLengthsInForce(model, force) };
  const key = `${programming ? "in" : "out"} ${lengths.code.join()} ${lengths.installer.join()}`;
  const known = automata.get(model) ?? new Map<string, Automaton>();
  automata.set(model, known);
  const made = known.get(key) ?? (programming ? programmingAutomaton : enterAutomaton)(model, lengths);
  known.set(key, made);
  return made;
}
