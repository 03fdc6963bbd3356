/** Encoding and recognising check each other: what is encoded is read back as the same operation. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { encode, encodeEnter, encodeLeave } from "../../../shared/keypad/encode.ts";
import type { Operation } from "../../../shared/keypad/memory.ts";
import { replay } from "../../../shared/keypad/replay.ts";
import { isWhole, runs } from "../../support/chance.ts";
import { actsIn } from "../../support/keypad.ts";
import { drawFrom, drawnModel, drawnOperation } from "../../support/random-model.ts";

test("random operations on random models are read back as what they were, one after the other", { timeout: 120_000 }, () => {
  let operations = 0;
  let models = 0;
  const kinds = new Set<string>();
  fc.assert(
    fc.property(fc.noShrink(fc.gen()), gen => {
      const draw = drawFrom(gen);
      const drawn = drawnModel(draw);
      if (!drawn) return;
      models++;
      const { model } = drawn;
      let memory = model.factory;
      for (let i = 0; i < 20; i++) {
        const operation: Operation = drawnOperation(model, memory, draw);
        const installer = memory.installer ?? "";
        const keys = [...encodeEnter(model, installer), ...encode(model, operation, { installer })];
        const whole = model.session === "one entry" ? keys : [...keys, ...encodeLeave(model, { installer })];
        const { steps, memory: after, unread } = replay(model, memory, actsIn(keys));
        expect(unread).toEqual([]);
        expect(steps.map(step => step.operation)).toEqual([{ operation: "enter" }, operation]);
        if (steps[1]?.taken && operation.operation !== "set installer" && operation.operation !== "clear all") {
          expect(replay(model, memory, actsIn(whole)).inProgramming).toBe(!model.operations.has("leave") && model.session !== "one entry");
        }
        operations++;
        kinds.add(operation.operation);
        memory = after;
      }
    }),
    { numRuns: runs(1_100) },
  );
  console.log(`${operations} operations on ${models} models`);
  if (isWhole) expect(operations).toBeGreaterThan(10_000);
  if (!isWhole) return;
  expect([...kinds].sort()).toEqual([
    "clear all",
    "clear all-relay",
    "clear code",
    "clear slot",
    "clear tag",
    "put code",
    "put tag",
    "set all-relay",
    "set installer",
    "set length",
    "set release",
    "set setting",
  ]);
});
