/** The simulated keypad against a second one, written apart, on keys that are legal or not. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { encode, encodeCancel, encodeEnter, encodeLeave } from "../../../shared/keypad/encode.ts";
import type { Act, Memory, ReplayStep } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { replay } from "../../../shared/keypad/replay.ts";
import { actsIn } from "../../support/keypad.ts";
import { Draw, drawnModel, drawnOperation, drawnTag } from "../../support/random-model.ts";
import { SecondKeypad } from "../../support/second-keypad.ts";

test("two keypads written apart take and refuse the same, and hold the same in the end", { timeout: 120_000 }, () => {
  const outcomes = new Map<string, number>();
  fc.assert(
    fc.property(fc.noShrink(fc.gen()), gen => {
      const draw = new Draw(gen);
      const drawn = drawnModel(draw);
      if (!drawn) return;
      const { model } = drawn;
      const acts = keyed(model, draw);
      const first = replay(model, model.factory, acts);
      const second = new SecondKeypad(model);
      for (const act of acts) second.feel(act);
      const unread = second.end();
      expect(first.steps.map(asSecond)).toEqual(second.steps);
      expect(first.unread.length).toBe(unread);
      expect(first.inProgramming).toBe(second.programming);
      expect(dump(model, first.memory)).toEqual(second.dump());
      for (const { outcome } of second.steps) outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
    }),
    { numRuns: 600 },
  );
  console.log([...outcomes].map(([outcome, count]) => `${count} ${outcome}`).join(", "));
  // Every way of refusing has been met, or the comparison says little.
  expect([...outcomes.keys()].sort()).toEqual([
    "memory-full",
    "not-in-programming",
    "setting-range",
    "slot-kind",
    "slot-range",
    "slot-taken",
    "taken",
    "twin",
    "unknown-keys",
    "values-differ",
    "wrong-installer-code",
  ]);
});

/** What a person types: mostly entries, some of them spoilt, cancelled or cut short, some at a keypad that is not listening. */
function keyed(model: Model, draw: Draw): readonly Act[] {
  const acts: Act[] = [];
  let memory: Memory = model.factory;
  for (let i = 0; i < 30; i++) {
    const state = replay(model, model.factory, acts);
    memory = state.memory;
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

function asSecond(step: ReplayStep) {
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

function dump(model: Model, memory: Memory): readonly string[] {
  return [
    `installer ${memory.installer}`,
    `length ${memory.codeLength}`,
    ...[...memory.slots.values()].map(
      slot =>
        `place ${model.slots.addressing === "shared" ? "" : slot.fires}/${slot.number ?? ""} fires ${slot.fires} code ${slot.code} tag ${slot.tag}`,
    ),
    ...[...memory.allRelay.values()].map(({ number, code }) => `all-relay ${number ?? ""} ${code}`),
    ...[...memory.releases].map(([relay, release]) => `release ${relay} ${release}`),
    ...[...memory.settings].map(([label, value]) => `setting ${label} ${value}`),
  ].sort();
}
