/** A keypad of a site: its relays, what is placed on them, and what its record says it holds. */
import type { Entry, FittedDecl, KeypadDecl, RelayDecl, Word } from "../../grammar/tree.ts";
import type { FileId } from "../finding.ts";
import { memoryOf } from "../keypad/fitted-memory.ts";
import type { Model } from "../keypad/model.ts";
import { relaySet } from "../keypad/relay-set.ts";
import { labelIn } from "../label.ts";
import { heldUseOf } from "./holders.ts";
import type { AllRelayPlace, Fitted, HeldUse, Holder, Keypad, KeypadRelay, Placement } from "./site.ts";

/** What a keypad's parts are looked up in. */
export interface Known {
  readonly holders: ReadonlyMap<string, Holder>;
  readonly models: ReadonlyMap<string, Model>;
  readonly fitted: ReadonlyMap<string, Fitted>;
}

export function keypadOf(file: FileId, node: KeypadDecl, known: Known): Keypad {
  const id = node.name?.text ?? "";
  const model = node.model && known.models.get(node.model.text);
  const fitted = known.fitted.get(id);
  const relays: KeypadRelay[] = [];
  const placements: Placement[] = [];
  const allRelay: AllRelayPlace[] = [];
  const settings: Keypad["settings"][number][] = [];
  let installer: Keypad["installer"];
  let codeLength: number | undefined;
  for (const fact of node.facts) {
    if (fact.kind === "installer") installer ??= installerOf(file, fact, known.holders);
    else if (fact.kind === "code-length") codeLength ??= numberIn(fact.digits);
    else if (fact.kind === "all-relay") {
      const number = numberIn(fact.number);
      const held = fact.held && heldUseOf(file, fact.held, known.holders);
      allRelay.push({ node: fact, ...(number === undefined ? {} : { number }), ...(held ? { held } : {}) });
    } else if (fact.kind === "setting") {
      const value = numberIn(fact.value);
      const span = { start: fact.start, end: fact.end };
      settings.push({ label: fact.label?.text ?? "", span, ...(value === undefined ? {} : { value }) });
    }
  }
  const keypad: Keypad = {
    id,
    label: labelIn(node.label) ?? id,
    file,
    node,
    ...(model ? { model } : {}),
    relays,
    placements,
    ...(installer ? { installer } : {}),
    allRelay,
    ...(codeLength === undefined ? {} : { codeLength }),
    settings,
    ...(fitted ? { fitted } : {}),
  };
  for (const fact of node.facts) {
    if (fact.kind !== "relay") continue;
    const relay = relayOf(keypad, fact, known.holders);
    relays.push(relay);
    for (const placement of relay.placements) placements.push(placement);
  }
  return keypad;
}

/** What a record says; its memory is read by the model that it names, or else by the keypad's. */
export function fittedOf(file: FileId, node: FittedDecl, models: ReadonlyMap<string, Model>, keypadsModel: string | undefined): Fitted {
  const named = node.facts.find(fact => fact.kind === "model-ref");
  const modelId = named?.kind === "model-ref" ? named.name?.text : undefined;
  const model = models.get(modelId ?? keypadsModel ?? "");
  const read = model && !node.unknown ? memoryOf(model, node.facts) : undefined;
  return {
    keypadId: node.keypad?.text ?? "",
    file,
    node,
    ...(node.date ? { date: node.date.text } : {}),
    knows: node.unknown ? "nothing" : node.partly ? "part" : "all",
    ...(modelId === undefined ? {} : { modelId }),
    ...(read ? { memory: read.memory } : {}),
    problems: read?.problems ?? [],
  };
}

function relayOf(keypad: Keypad, node: RelayDecl, holders: ReadonlyMap<string, Holder>): KeypadRelay {
  const placements: Placement[] = [];
  const seconds = numberIn(node.release?.seconds);
  const release = node.release?.toggle ? "toggle" : seconds;
  const label = labelIn(node.label);
  const relay: KeypadRelay = {
    keypad,
    set: relaySet(node.numbers.map(word => word.text)),
    ...(label === undefined ? {} : { label }),
    spare: node.spare !== undefined,
    noCodes: node.noCodes !== undefined,
    ...(release === undefined ? {} : { release }),
    node,
    placements,
  };
  for (const entry of node.entries) placements.push(placementOf(keypad, relay, entry, holders));
  return relay;
}

function placementOf(keypad: Keypad, relay: KeypadRelay, node: Entry, holders: ReadonlyMap<string, Holder>): Placement {
  const slot = numberIn(node.slot);
  const held: HeldUse[] = [];
  if (node.held) held.push(heldUseOf(keypad.file, node.held, holders));
  if (node.pair?.held) held.push(heldUseOf(keypad.file, node.pair.held, holders));
  return { keypad, relay, file: keypad.file, node, slot, held, mode: node.pair?.mode };
}

function installerOf(
  file: FileId,
  node: NonNullable<Keypad["installer"]>["node"],
  holders: ReadonlyMap<string, Holder>,
): NonNullable<Keypad["installer"]> {
  const held = node.held && heldUseOf(file, node.held, holders);
  const digits = node.digits?.text ?? held?.credential?.digits;
  return { node, ...(held ? { held } : {}), ...(digits === undefined ? {} : { digits }) };
}

function numberIn(word: Word | undefined): number | undefined {
  if (!word || !/^[0-9]+$/.test(word.text)) return undefined;
  return Number(word.text);
}
