/**
 * Facts of the trade about stand-alone keypads. Source of every one: common practice, no source. They are spread over several
 * small models, since no keypad has them all; the key strings are made up.
 */
import { describe, expect, test } from "vitest";
import { doorOf, opens } from "../../shared/keypad/door.ts";
import { encode, encodeEnter } from "../../shared/keypad/encode.ts";
import type { Memory } from "../../shared/keypad/memory.ts";
import type { Model } from "../../shared/keypad/model.ts";
import { replay } from "../../shared/keypad/replay.ts";
import { acts, actsIn, memoryFrom, modelOf, written } from "../support/keypad.ts";

const typed = (model: Model, keys: string, memory: Memory = model.factory) => {
  const { steps, memory: after } = replay(model, memory, acts(keys));
  expect(steps.filter(step => !step.taken)).toEqual([]);
  return after;
};

describe("a place number under one relay is another place than the same number under another relay (common practice, no source)", () => {
  const twoRelays = (slots: string) =>
    modelOf(`model stilt-2 "Places for each relay" {
      relays 1 = 1, 2 = 2
      slots ${slots} per relay
      codes 4 digits
      enter * {installer} #
      put code 5 {relay} {slot} {code} #
      clear slot 6 {relay} {slot} #
      open code {code}
      factory {
        installer code 9753
      }
    }`);
  test("with a hundred places each", () => {
    const model = twoRelays("00..99");
    const memory = typed(model, "* 9753 # 5 1 07 4829 # 5 2 07 5591 #");
    expect(Object.fromEntries(opens(model, memory))).toEqual({ "4829": ["1"], "5591": ["2"] });
    expect(Object.fromEntries(opens(model, typed(model, "* 9753 # 6 1 07 #", memory)))).toEqual({ "5591": ["2"] });
  });
  test("with a thousand places each: two thousand codes in all, none over another", () => {
    const model = twoRelays("000..999");
    expect(model.slots.capacity).toBe(1000);
    const keys = [...actsIn(encodeEnter(model, "9753"))];
    for (let slot = 0; slot < 1000; slot++) {
      keys.push(...actsIn(encode(model, { operation: "put code", relay: "1", slot, code: `${2000 + slot}` }, {})));
      keys.push(...actsIn(encode(model, { operation: "put code", relay: "2", slot, code: `${5000 + slot}` }, {})));
    }
    const { steps, memory } = replay(model, model.factory, keys);
    expect(steps.every(step => step.taken)).toBe(true);
    expect(memory.slots.size).toBe(2000);
    const door = doorOf(model, memory);
    expect([door.fires(acts("2999")), door.fires(acts("5999")), door.fires(acts("3000"))]).toEqual([["1"], ["2"], []]);
  });
});

describe("codes of four, six or eight digits, with the installer code of the same length (common practice, no source)", () => {
  const model = modelOf(`model ruff-1 "As long as the installer code" {
    slots 01..50 shared
    codes 4 | 6 | 8 digits
    length follows installer code
    enter # {installer} *
    put code 1 {slot} {code} *
    clear slot 2 {slot} *
    set installer 3 {code} {code} *
    open code {code}
    factory {
      installer code 9753
    }
  }`);
  test.each([
    ["9753", "4829", "482917"],
    ["975310", "482917", "4829"],
    ["97531024", "48291735", "482917"],
  ])("installer code number %#", (installer, code, other) => {
    const start = memoryFrom(model, `installer code ${installer}`);
    expect(Object.fromEntries(opens(model, typed(model, `# ${installer} * 1 01 ${code} *`, start)))).toEqual({ [code]: ["1"] });
    const { steps, memory } = replay(model, start, acts(`# ${installer} * 1 01 ${other} *`));
    expect(steps.some(step => !step.taken)).toBe(true);
    expect(memory.slots.size).toBe(0);
  });
  test("five and seven digits are no installer code", () => {
    expect(model.installerLengths).toEqual([4, 6, 8]);
    expect(typed(model, "# 9753 * 3 975310 975310 *").installer).toBe("975310");
    expect(replay(model, model.factory, acts("# 9753 * 3 97531 97531 *")).memory.installer).toBe("9753");
  });
});

describe("writing a taken place replaces what was there; deleting is the entry that adds with another operation digit (common practice, no source)", () => {
  const model = modelOf(`model godwit-1 "Overwrites" {
    slots 001..200 shared
    codes 5 digits
    rewrite replaces
    enter 0 0 {installer} #
    put code 1 # {slot} # {code} #
    clear slot 2 # {slot} #
    open code {code}
    factory {
      installer code 97531
    }
  }`);
  test("the code that was there opens nothing any more", () => {
    const memory = typed(model, "0 0 97531 # 1 # 042 # 48291 # 1 # 042 # 55910 #");
    expect(Object.fromEntries(opens(model, memory))).toEqual({ "55910": ["1"] });
  });
  test("the keys that delete are those that add, up to the place, but for the first digit", () => {
    const add = written(encode(model, { operation: "put code", slot: 42, code: "48291" }, {}));
    const remove = written(encode(model, { operation: "clear slot", slot: 42 }, {}));
    expect(remove).toBe(add.replace(/^1/, "2").replace(" 48291 #", ""));
    expect(typed(model, "0 0 97531 # 1 # 042 # 48291 # 2 # 042 #").slots.size).toBe(0);
  });
});

test("a keypad must be powered for a minute before it can be programmed (common practice, no source)", () => {
  const model = modelOf(
    'model curlew-1 "Slow to wake" {\n  slots 1..9 shared\n  codes 4 digits\n  settle 60s\n  enter * {installer} #\n  put code 1 {slot} {code} #\n  clear slot 2 {slot} #\n  open code {code}\n}',
  );
  expect(model.settleSeconds).toBe(60);
});

test("on some keypads a lost installer code means a reset that wipes everything (common practice, no source)", () => {
  const model = modelOf(`model jacana-1 "Only one way back" {
    slots 1..9 shared
    codes 4 digits
    reset wipes everything "Bridge the pins"
    enter * {installer} #
    put code 1 {slot} {code} #
    clear slot 2 {slot} #
    set installer 3 {code} {code} #
    open code {code}
    factory {
      installer code 9753
    }
  }`);
  const memory = typed(model, "* 9753 # 3 8642 8642 # 1 5 4829 #");
  // With the code that was lost nobody enters, and there is no gentler reset.
  expect(replay(model, memory, acts("* 9753 #")).inProgramming).toBe(false);
  expect(model.resets.map(reset => reset.what)).toEqual(["everything"]);
  // What the keypad holds after it: the installer code that it came with, and no one's code.
  expect([model.factory.installer, model.factory.slots.size]).toEqual(["9753", 0]);
  expect(replay(model, model.factory, acts("* 9753 #")).inProgramming).toBe(true);
});

test("one code may release any relay when the relay's digit is keyed with it (common practice, no source)", () => {
  const model = modelOf(`model dotterel-3 "One code for all" {
    relays 1 = 1, 2 = 2, 3 = 3
    slots 01..99 per relay
    codes 4 digits
    enter * {installer} #
    put code 1 {relay} {slot} {code} #
    clear slot 2 {relay} {slot} #
    set all-relay 3 {code} #
    open code {code} #
    open all-relay {relay-number} {code} #
    factory {
      installer code 9753
    }
  }`);
  const door = doorOf(model, typed(model, "* 9753 # 3 9182 # 1 2 01 4829 #"));
  expect(["1 9182 #", "2 9182 #", "3 9182 #", "9182 #", "4 9182 #", "4829 #", "1 4829 #"].map(keys => door.fires(acts(keys)))).toEqual([
    ["1"],
    ["2"],
    ["3"],
    [],
    [],
    ["2"],
    [],
  ]);
});
