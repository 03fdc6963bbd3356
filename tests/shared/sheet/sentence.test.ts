/** Operations in words: holders, doors and slots by name, codes never. */
import { describe, expect, test } from "vitest";
import type { Operation } from "../../../shared/keypad/memory.ts";
import { namesOf } from "../../../shared/sheet/names.ts";
import { sentence } from "../../../shared/sheet/sentence.ts";
import { models } from "./models.ts";
import { model, record, siteOf, wharf } from "./wharf.ts";

function words(text: string, operations: readonly Operation[]): readonly string[] {
  const site = siteOf(text);
  const keypad = [...site.keypads.values()][0];
  if (!keypad?.model) throw new Error("the fixture has a keypad with a model");
  const names = namesOf(site, keypad, keypad.model, keypad.fitted?.memory);
  return operations.map(operation => sentence(operation, names, keypad.model as NonNullable<typeof keypad.model>));
}

test("numbered slots for each relay", () => {
  expect(
    words(wharf + model + record.replace("13 tag 555", "13 unknown"), [
      { operation: "put code", relay: "1", slot: 1, code: "48291" },
      { operation: "put code", relay: "2", slot: 1, code: "01153" },
      { operation: "put code", relay: "3", slot: 7, code: "11111" },
      { operation: "put tag", relay: "1", slot: 10, tag: "8061261" },
      { operation: "put tag", relay: "1", slot: 11, tag: "77" },
      { operation: "clear slot", relay: "1", slot: 1 },
      { operation: "clear slot", relay: "1", slot: 9 },
      { operation: "clear slot", relay: "1", slot: 13 },
      { operation: "clear slot", relay: "1", slot: 40 },
      { operation: "set installer", code: "60441" },
      { operation: "set all-relay", code: "91827" },
      { operation: "clear all-relay" },
      { operation: "set release", relay: "1", release: 5 },
      { operation: "set release", relay: "2", release: "toggle" },
      { operation: "set setting", label: "key light", value: 2 },
      { operation: "clear all" },
    ]),
  ).toEqual([
    "Unit 1's code into slot 01 of Foot gate",
    'Unit 3\'s code "yard" into slot 01 of Vehicle gate',
    "A code that is no one's in the text into slot 07 of relay 3",
    "Unit 1's tag (blue fob) into slot 10 of Foot gate",
    "The tag 77 into slot 11 of Foot gate",
    "Empty slot 01 of Foot gate (Unit 1's code)",
    "Empty slot 09 of Foot gate (a code)",
    "Empty slot 13 of Foot gate (nobody can say what it holds)",
    "Empty slot 40 of Foot gate",
    "New installer code",
    "Wharf manager's code as all-relay code",
    "Take out the all-relay code",
    "Release time of Foot gate: 5 s",
    "Release time of Vehicle gate: until keyed again",
    'Setting "key light": 2',
    "Clear everything: every slot and the all-relay codes",
  ]);
});

describe("other memories", () => {
  const [shared, loose, sets] = Object.values(models) as [string, string, string];

  test("shared numbers say which door they are for", () => {
    expect(words(shared, [{ operation: "put code", relay: "1", slot: 12, code: "7390" }])).toEqual([
      "Bea's code into slot 12, for Kitchen door",
    ]);
  });

  test("without numbers, and with a label from right to left that keeps to itself", () => {
    expect(
      words(loose, [
        { operation: "put code", code: "739022" },
        { operation: "clear code", code: "559013" },
        { operation: "clear tag", tag: '"red dot"' },
      ]),
    ).toEqual(["\u2068בית\u2069's code into the keypad", "Άννα's code out of the keypad", "Άννα's tag (red dot) out of the keypad"]);
  });

  test("a set of relays is its doors; a numbered all-relay code has its number", () => {
    expect(
      words(sets, [
        { operation: "put code", relay: "1+2", slot: 2, code: "73902" },
        { operation: "set all-relay", slot: 990, code: "40404" },
        { operation: "clear all-relay", slot: 990 },
      ]),
    ).toEqual([
      "Unit 2's code into slot 002, for Gate and Porch",
      "Manager's code as all-relay code 990",
      "Take out the all-relay code 990",
    ]);
  });
});
