/** What can be typed while one memory is changed into another, and what it costs. */
import { cannotEncode, encode } from "../keypad/encode.ts";
import { codeLengthsInForce } from "../keypad/lengths.ts";
import type { Digits, Memory, Operation, TagId } from "../keypad/memory.ts";
import type { Model } from "../keypad/model.ts";
import { presentTag } from "../keypad/template-fields.ts";
import type { Effort, Holding } from "./clearing.ts";
import { clearingsFor } from "./clearing.ts";
import type { Extra } from "./cycles.ts";
import { writing } from "./operation-of.ts";
import type { Place } from "./place.ts";
import { holdsAny } from "./place.ts";
import type { Meanwhile } from "./writes.ts";
import { writesFor } from "./writes.ts";

/** What is to be changed, and what must not be asked for meanwhile. */
export interface Change {
  readonly model: Model;
  readonly from: Memory;
  readonly to: Memory;
  readonly places: readonly Place[];
  /** Tags that cannot be presented. */
  readonly lost: ReadonlySet<TagId>;
  readonly meanwhile: Meanwhile;
  /** Codes that a new length wakes: they cannot be cleared by their digits, which are read only when they are awake. */
  readonly woken: ReadonlySet<Digits>;
}

/** What emptying a place first costs more than writing over it; undefined where that is not possible, or done anyway. */
export function emptyingCost(change: Change, holding: Holding, place: Place): Extra | undefined {
  if (!place.unknown && !holdsAny(place.from)) return undefined;
  const { model } = change;
  const plain = writesFor(model, place, false, change.meanwhile);
  if (plain.emptied) return undefined;
  const effort = effortOf(change);
  const { clearings } = clearingsFor(model, [place], holding, effort);
  const clear = clearings[0] && effort(clearings[0].operation);
  if (!clear) return undefined;
  let cost: Extra = { tags: clear.tags, entries: 1, keys: clear.keys };
  for (const half of writesFor(model, place, true, change.meanwhile).halves) {
    if (plain.halves.includes(half)) continue;
    const operation = writing(model, place, half);
    const again = operation && effort(operation);
    if (!again) return undefined;
    cost = { tags: cost.tags + again.tags, entries: cost.entries + 1, keys: cost.keys + again.keys };
  }
  return cost;
}

/** What typing an operation costs; undefined where it cannot be typed. */
export function effortOf(change: Change): (operation: Operation) => Effort | undefined {
  const { model } = change;
  const force = change.to.installer === undefined ? {} : { installer: change.to.installer };
  return operation => {
    if (cannotType(change, operation) !== undefined) return undefined;
    const acts = encode(model, operation, force).flatMap(group => group.acts);
    const keys = acts.filter(act => "press" in act).length;
    return { tags: acts.filter(act => "hand" in act && act.tag !== undefined).length, keys };
  };
}

/** Why an operation cannot be typed in this change, in words without a code; undefined where it can. */
export function cannotType({ model, from, to, lost, woken }: Change, operation: Operation): string | undefined {
  if ((operation.operation === "clear code" || operation.operation === "clear all-relay") && operation.code !== undefined) {
    const digits = operation.code.length;
    const inForce = [from, to].some(memory => codeLengthsInForce(model, memory).includes(digits));
    if (!inForce) return "the keypad does not read codes of that length now";
    if (woken.has(operation.code)) return "the keypad reads codes of that length only when they fire again";
  }
  if (
    "tag" in operation &&
    lost.has(operation.tag) &&
    templateOf(model, operation).some(one => one.kind === "hand" && one.text === presentTag)
  ) {
    return "a lost tag cannot be presented";
  }
  return cannotEncode(model, operation, { ...(to.installer === undefined ? {} : { installer: to.installer }) });
}

function templateOf(model: Model, operation: Operation) {
  if (operation.operation === "set setting") return model.settings.get(operation.label)?.template ?? [];
  return model.operations.get(operation.operation)?.template ?? [];
}
