/** What people key at a keypad, rightly and wrongly, drawn at random; and the steps of two simulated keypads in the same words. */
import { encode, encodeCancel, encodeEnter, encodeLeave } from "../../shared/keypad/encode.ts";
import type { Act, KeyGroup, Memory, ReplayStep } from "../../shared/keypad/memory.ts";
import type { Model } from "../../shared/keypad/model.ts";
import { replay } from "../../shared/keypad/replay.ts";
import type { Draw } from "./random-model.ts";
import { drawnOperation, drawnTag } from "./random-model.ts";

/** What a person types: mostly entries, some of them spoilt, cancelled or cut short, some at a keypad that is not listening. */
export function keyed(model: Model, draw: Draw, from: Memory = model.factory, entries = 30): readonly Act[] {
  const acts: Act[] = [];
  for (let i = 0; i < entries; i++) {
    const state = replay(model, from, acts);
    const { memory } = state;
    const installer = memory.installer ?? "";
    if (!state.inProgramming && !draw.oneIn(8)) {
      const wrong = draw.oneIn(10) ? installer.replace(/./, digit => `${(Number(digit) + 1) % 10}`) : installer;
      acts.push(...actsIn(encodeEnter(model, wrong)));
      continue;
    }
    const whole = actsIn(encode(model, drawnOperation(model, memory, draw), { installer }));
    switch (draw.upTo(13)) {
      case 0:
        acts.push(...whole.slice(0, draw.upTo(whole.length - 1)), ...actsIn(encodeCancel(model)));
        break;
      case 1: {
        const at = draw.upTo(whole.length - 1);
        acts.push(...whole.slice(0, at), anyAct(model, draw), ...whole.slice(at + draw.upTo(1)));
        break;
      }
      case 2:
        acts.push(...actsIn(encodeLeave(model, { installer })));
        break;
      case 3:
        acts.push(anyAct(model, draw));
        break;
      default:
        acts.push(...whole);
    }
  }
  return acts;
}

function anyAct(model: Model, draw: Draw): Act {
  if (draw.oneIn(12)) return { press: "NOKEY" };
  return draw.oneIn(8) ? { hand: "present tag", tag: drawnTag(draw) } : { press: draw.one([...model.keys]) };
}

/** A step of the first keypad in the words of the second. */
export function asSecond(step: ReplayStep) {
  const { operation, label, ...fields } = step.operation as { operation: string; label?: string } & Record<string, unknown>;
  const renamed: Record<string, unknown> = { ...fields };
  if ("release" in renamed) {
    renamed.seconds = renamed.release;
    delete renamed.release;
  }
  const words = Object.entries(renamed)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([field, value]) => `${field}=${value}`);
  return {
    what: [operation, ...(label === undefined ? [] : [label]), ...words].join(" "),
    outcome: step.taken ? "taken" : step.refusal.kind,
    acts: step.acts.length,
  };
}

export function actsIn(groups: readonly KeyGroup[]): readonly Act[] {
  return groups.flatMap(group => group.acts);
}
