/** Entries for what is no place: the installer code, the code length, settings and release times. */
import { apply } from "../keypad/apply.ts";
import { draftOf, freeze } from "../keypad/draft.ts";
import { cannotEncode } from "../keypad/encode.ts";
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { Memory, Operation } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import type { Step } from "./steps.ts";

export interface FactSteps {
  readonly installer?: Step;
  /** Where the length is set by an entry of its own. */
  readonly length?: Step;
  readonly others: readonly Step[];
  /** What the keypad has no entry for, in words without a code. */
  readonly stuck: readonly string[];
  /** What no keypad of the model takes. */
  readonly wrong: readonly string[];
}

/** Ranks are those of `placesOf`: settings come after the all-relay codes, a relay's release time before its first slot. */
export function factSteps(model: Model, from: Memory, to: Memory, unsure = false): FactSteps {
  const stuck: string[] = [];
  const wrong: string[] = [];
  const step = (operation: Operation, rank: number, otherwise: string): readonly Step[] => {
    const untyped = cannotEncode(model, operation, { ...(to.installer === undefined ? {} : { installer: to.installer }) });
    const reason = untyped ?? refused(model, operation);
    if (reason !== undefined) (untyped === undefined ? wrong : stuck).push(`${otherwise}: ${reason}`);
    const doubt = unsure && operation.operation === "set installer" ? { because: "unknown before" as const } : {};
    return reason === undefined ? [{ operation, rank, needs: new Set(), empties: [], ...doubt }] : [];
  };
  const installer =
    to.installer === undefined || (from.installer === to.installer && !(unsure && model.operations.has("set installer")))
      ? []
      : step({ operation: "set installer", code: to.installer }, Number.NEGATIVE_INFINITY, "the installer code cannot be changed");
  const length =
    model.length !== "set by entry" || to.codeLength === undefined || from.codeLength === to.codeLength
      ? []
      : step({ operation: "set length", digits: to.codeLength }, Number.NEGATIVE_INFINITY, "the code length cannot be changed");
  const others: Step[] = [];
  const beforeSlots = to.allRelay.size + 0.25;
  for (const [label, value] of to.settings) {
    if (value === "unknown" || from.settings.get(label) === value) continue;
    others.push(...step({ operation: "set setting", label, value }, beforeSlots, `the setting "${label}" cannot be changed`));
  }
  const firstRank = firstRanks(to);
  let afterAll = to.allRelay.size + to.slots.size + 2;
  for (const [relay, release] of to.releases) {
    if (release === "unknown" || from.releases.get(relay) === release) continue;
    const rank = (firstRank.get(relay) ?? afterAll++) - 0.5;
    others.push(...step({ operation: "set release", relay, release }, rank, `the release time of relay ${relay} cannot be changed`));
  }
  return { ...(installer[0] ? { installer: installer[0] } : {}), ...(length[0] ? { length: length[0] } : {}), others, stuck, wrong };
}

/** The codes that a keypad takes are of another length than before. */
export function changesLength(model: Model, from: Memory, to: Memory): boolean {
  return codeLengthsInForce(model, from).join() !== codeLengthsInForce(model, to).join();
}

/**
 * What is stored when the first code of a new length is written: under `relength clears` what that length leaves, as the keypad
 * itself does it; everything else as before.
 */
export function afterRelength(model: Model, from: Memory, { installer, length }: Pick<FactSteps, "installer" | "length">): Memory {
  const draft = draftOf(from);
  for (const step of [installer, length]) if (step) apply(model, draft, step.operation);
  const { installer: _, codeLength: __, ...rest } = freeze(draft);
  return {
    ...rest,
    ...(from.installer === undefined ? {} : { installer: from.installer }),
    ...(from.codeLength === undefined ? {} : { codeLength: from.codeLength }),
  };
}

function firstRanks(to: Memory): ReadonlyMap<string, number> {
  const ranks = new Map<string, number>();
  let rank = to.allRelay.size;
  for (const { fires } of to.slots.values()) {
    rank++;
    if (fires !== undefined && !ranks.has(fires)) ranks.set(fires, rank);
  }
  return ranks;
}

/** Why the keypad would refuse an entry whatever is stored. */
function refused(model: Model, operation: Operation): string | undefined {
  if (operation.operation === "set setting") {
    const setting = model.settings.get(operation.label);
    if (setting && (operation.value < setting.min || operation.value > setting.max)) return `it goes from ${setting.min} to ${setting.max}`;
  }
  if (operation.operation === "set release") {
    const range = model.release;
    const { release } = operation;
    if (!range) return "the model does not say what release times it takes";
    if (release === "toggle" ? range.toggle === undefined : release < range.min || range.max < release)
      return "the model does not take that time";
  }
  if (operation.operation === "set installer" && !model.installerLengths.includes(operation.code.length))
    return "it has a length that the model does not take";
  if (operation.operation === "set length" && !model.codeLengths.includes(operation.digits)) return "the model does not take that length";
  return undefined;
}
