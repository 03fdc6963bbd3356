/** Any keys: the simulated keypad and a second one, written apart, on entries, half entries, noise and pauses long enough to lapse. */
import { deepEqual, equal } from "node:assert/strict";
import type { Act, Memory } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { replay } from "../../../shared/keypad/replay.ts";
import { asSecond, keyed } from "../../support/keying.ts";
import type { Draw } from "../../support/random-model.ts";
import { drawnTag } from "../../support/random-model.ts";
import { dumped, heldIn, SecondKeypad } from "../../support/second-keypad.ts";
import type { Part } from "../part.ts";
import { drawOf, richMemory, richModel } from "./draw.ts";

/** What is keyed, cut where nobody keys anything until programming mode ends. */
type Keying = readonly (readonly Act[])[];

export const keys: Part = {
  name: "keys",
  counted: "key strings",
  short: { random: 60 },
  attempt({ random, keep, counts }) {
    const draw = drawOf(random);
    const { model, text } = richModel(draw);
    const count = 10;
    for (let i = 0; i < count; i++) {
      const memory = draw.oneIn(3) ? model.factory : richMemory(model, draw, model.factory, draw.upTo(12));
      const keying = cut(draw, drawnActs(model, memory, draw));
      keep(() => `${text}\n\n${dumped(model, heldIn(memory)).join("\n")}\n\n${keying.map(written).join("\n(nobody keys anything)\n")}\n`);
      agree(model, memory, keying);
      inTwo(model, memory, keying.flat(), draw);
    }
    counts(count);
  },
};

/** Both take and refuse the same, act for act, and hold the same after each pause. */
function agree(model: Model, memory: Memory, keying: Keying): void {
  const second = new SecondKeypad(model, memory);
  let held = memory;
  for (const acts of keying) {
    const before = second.steps.length;
    const first = replay(model, held, acts);
    for (const act of acts) second.feel(act);
    equal(first.unread.length, second.end());
    deepEqual(first.steps.map(asSecond), second.steps.slice(before));
    equal(first.inProgramming, second.programming);
    deepEqual(dumped(model, heldIn(first.memory)), second.dump());
    second.lapse();
    held = first.memory;
  }
}

/** What has been keyed so far is all in the memory: the rest, replayed from there, ends as the whole does. */
function inTwo(model: Model, memory: Memory, acts: readonly Act[], draw: Draw): void {
  const at = draw.upTo(acts.length);
  const begun = replay(model, memory, acts.slice(0, at));
  if (begun.unread.length > 0) return;
  const rest = replay(model, begun.memory, acts.slice(at), begun.inProgramming);
  const whole = replay(model, memory, acts);
  deepEqual(dumped(model, heldIn(rest.memory)), dumped(model, heldIn(whole.memory)));
  equal(rest.inProgramming, whole.inProgramming);
  deepEqual(rest.unread, whole.unread);
}

function drawnActs(model: Model, memory: Memory, draw: Draw): readonly Act[] {
  const acts = keyed(model, draw, memory, draw.between(2, 16));
  if (draw.oneIn(2)) return acts;
  return draw.oneIn(3) ? noise(model, draw) : spoilt(model, acts, draw);
}

/** Keys that stand in the model's own entries, so that noise is now and then an entry. */
function noise(model: Model, draw: Draw): readonly Act[] {
  const templates = [...model.operations.values(), ...model.settings.values()].flatMap(({ template }) => template);
  const words = templates.flatMap(element => (element.kind === "keys" ? [element.text] : []));
  return Array.from({ length: draw.between(1, 60) }, () => {
    if (draw.oneIn(12)) return [{ hand: "present tag", tag: drawnTag(draw) }];
    if (draw.oneIn(2)) return [{ press: draw.one([...model.keys]) }];
    const word = draw.one(words);
    return /^\d+$/.test(word) ? [...word].map(press => ({ press })) : [{ press: word }];
  }).flat();
}

/** Acts left out, doubled, swapped and exchanged. */
function spoilt(model: Model, acts: readonly Act[], draw: Draw): readonly Act[] {
  const all = [...acts];
  for (let i = draw.between(1, 6); i > 0 && all.length > 1; i--) {
    const at = draw.upTo(all.length - 2);
    const [one, next] = all.slice(at, at + 2) as [Act, Act];
    const other = draw.one<readonly Act[]>([[], [one], [one, one, next], [next, one], [{ press: draw.one([...model.keys]) }, next]]);
    all.splice(at, 2, ...other);
  }
  return all;
}

function cut(draw: Draw, acts: readonly Act[]): Keying {
  if (!draw.oneIn(2) || acts.length === 0) return [acts];
  const at = draw.upTo(acts.length);
  return [acts.slice(0, at), ...cut(draw, acts.slice(at))];
}

function written(acts: readonly Act[]): string {
  return acts.map(act => ("press" in act ? act.press : `[${act.hand}${act.tag === undefined ? "" : ` ${act.tag}`}]`)).join(" ");
}
