/** What fires at the door: on examples, and against a plain simulation that keys every stored thing and looks what fires. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { doorOf, opens, shadowedBy } from "../../../shared/keypad/door.ts";
import { encode } from "../../../shared/keypad/encode.ts";
import type { Act, Memory } from "../../../shared/keypad/memory.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { replay } from "../../../shared/keypad/replay.ts";
import { isWhole, runs } from "../../support/chance.ts";
import { acts, actsIn, memoryFrom, modelOf } from "../../support/keypad.ts";
import { drawFrom, drawnModel, drawnOperation } from "../../support/random-model.ts";
import { SecondDoor } from "../../support/second-door.ts";
import { heldIn } from "../../support/second-keypad.ts";

function keypad(...lines: readonly string[]): Model {
  const said = (word: string) => lines.some(line => line.startsWith(word));
  return modelOf(`model door "What fires" {
    keys 0..9 A OK
    relays 1 = 1, 2 = 2, 1+2 = 3
    ${said("slots") ? "" : "slots 1..9 per relay"}
    ${said("codes") ? "" : "codes 3..5 digits\nlength free"}
    enter OK {installer} OK
    put code 1 {relay} ${lines.some(line => /slots.*unnumbered/.test(line)) ? "" : "{slot}"} {code} OK
    put tag 2 {relay} ${lines.some(line => /slots.*unnumbered/.test(line)) ? "" : "{slot}"} [present tag] OK
    set all-relay 3 {code} OK
    ${said("open code") ? "" : "open code {code}"}
    open tag [present tag]
    ${said("open all-relay") ? "" : "open all-relay {relay-number} A {code}"}
    ${lines.join("\n")}
  }`);
}

const asWritten = (model: Model, memory: Memory) => Object.fromEntries(opens(model, memory));

describe("what opens", () => {
  test("codes, tags and the all-relay code, each with what is keyed or presented", () => {
    const model = keypad();
    const memory = memoryFrom(
      model,
      'all-relay code 918\nrelay 1 { 1 code 482\n2 tag 8061261 }\nrelay 1+2 { 1 code 73046\n2 tag "red dot" }',
    );
    expect(asWritten(model, memory)).toEqual({
      "482": ["1"],
      "tag:8061261": ["1"],
      "73046": ["1", "2"],
      'tag:"red dot"': ["1", "2"],
      "1A918": ["1"],
      "2A918": ["2"],
    });
  });
  test("an all-relay code fires a set where the set has keys of its own", () => {
    const model = keypad("open all-relay {code} A {relay}");
    expect(asWritten(model, memoryFrom(model, "all-relay code 918"))).toEqual({ "918A1": ["1"], "918A2": ["2"], "918A3": ["1", "2"] });
  });
  test("a code keyed with a key behind it", () => {
    const model = keypad("open code {code} OK");
    const memory = memoryFrom(model, "relay 1 { 1 code 482\n2 code 4821 }");
    expect(asWritten(model, memory)).toEqual({ "482OK": ["1"], "4821OK": ["1"] });
    expect(doorOf(model, memory).fires(acts("482"))).toEqual([]);
  });
  test("half a pair opens nothing, a whole one in the order of the model", () => {
    const model = keypad("slots 1..9 per relay holds code with tag", "open both [present tag] {code}");
    const memory = memoryFrom(model, "relay 1 { 1 code 482 with tag 334\n2 code 7304\n3 tag 335 }");
    expect(asWritten(model, memory)).toEqual({ "tag:334 482": ["1"] });
    expect(shadowedBy(model, memory)).toEqual([
      { stored: { is: "slot", key: "1/2", half: "code" }, why: "half" },
      { stored: { is: "slot", key: "1/3", half: "tag" }, why: "half" },
    ]);
    expect(doorOf(model, memory).fires(acts("[present tag 334] 482"))).toEqual(["1"]);
    expect(doorOf(model, memory).fires(acts("482 [present tag 334]"))).toEqual([]);
  });
  test("what nobody knows opens nothing that could be named", () => {
    const model = keypad();
    expect(asWritten(model, memoryFrom(model, "relay 1 { 1 unknown }"))).toEqual({});
  });
});

describe("what is beaten", () => {
  const memory = (model: Model) => memoryFrom(model, "relay 1 { 1 code 482 }\nrelay 2 { 1 code 48291 }");
  const longer = { is: "slot", key: "2/1", half: "code" } as const;
  const shorter = { is: "slot", key: "1/1", half: "code" } as const;

  test("acting at once, the shorter code wins and the rest is heard as something new", () => {
    const model = keypad();
    expect(asWritten(model, memory(model))).toEqual({ "482": ["1"] });
    expect(shadowedBy(model, memory(model))).toEqual([{ stored: longer, why: "shadowed", by: shorter }]);
    expect(doorOf(model, memory(model)).fires(acts("48291"))).toEqual(["1"]);
  });
  test("acting after a pause, the longer can still win", () => {
    const model = keypad("acts after a pause");
    expect(asWritten(model, memory(model))).toEqual({ "482": ["1"], "48291": ["2"] });
    expect(doorOf(model, memory(model)).fires(acts("48291"))).toEqual(["2"]);
    expect(doorOf(model, memory(model)).fires(acts("482 [wait 5s] 48291"))).toEqual(["1", "2"]);
  });
  test("hearing the last keys, a code inside another beats it as well", () => {
    const model = keypad("listens to the last keys");
    const inside = memoryFrom(model, "relay 1 { 1 code 829 }\nrelay 2 { 1 code 48291 }");
    expect(asWritten(model, inside)).toEqual({ "829": ["1"] });
    expect(doorOf(model, inside).fires(acts("777829"))).toEqual(["1"]);
    expect(asWritten(keypad(), inside)).toEqual({ "829": ["1"], "48291": ["2"] });
    expect(doorOf(keypad(), inside).fires(acts("777829"))).toEqual([]);
  });
  test("an all-relay code can be beaten at one relay only", () => {
    const model = keypad("open all-relay {relay-number} {code}");
    const beaten = memoryFrom(model, "all-relay code 827\nrelay 2 { 1 code 182 }");
    expect(asWritten(model, beaten)).toEqual({ "182": ["2"], "2827": ["2"] });
    expect(shadowedBy(model, beaten)).toEqual([
      { stored: { is: "all-relay", relay: "1" }, why: "shadowed", by: { is: "slot", key: "2/1", half: "code" } },
    ]);
  });
  test("the first of twins fires: lowest relay, then lowest number", () => {
    const model = keypad("twins first fires");
    const twins = memoryFrom(model, "relay 2 { 1 code 482 }\nrelay 1 { 3 code 482\n2 code 482 }");
    expect(asWritten(model, twins)).toEqual({ "482": ["1"] });
    expect(shadowedBy(model, twins)).toEqual([
      { stored: { is: "slot", key: "1/3", half: "code" }, why: "twin", by: { is: "slot", key: "1/2", half: "code" } },
      { stored: { is: "slot", key: "2/1", half: "code" }, why: "twin", by: { is: "slot", key: "1/2", half: "code" } },
    ]);
    expect(asWritten(keypad("twins all fire"), twins)).toEqual({ "482": ["1", "2"] });
  });
  test("without numbers the twin typed first fires", () => {
    const model = keypad("slots 9 unnumbered", "twins first fires");
    expect(asWritten(model, memoryFrom(model, "relay 2 { code 482 }\nrelay 1 { code 482 }"))).toEqual({ "482": ["2"] });
  });
  test("a code of another length than the one in force sleeps", () => {
    const model = keypad("codes 3 | 5 digits", "length follows installer code");
    const asleep = memoryFrom(model, "installer code 24680\nall-relay code 918\nrelay 1 { 1 code 482\n2 code 73046 }");
    expect(asWritten(model, asleep)).toEqual({ "73046": ["1"] });
    expect(shadowedBy(model, asleep).map(({ stored, why }) => [stored.is, why])).toEqual([
      ["slot", "length"],
      ["all-relay", "length"],
      ["all-relay", "length"],
    ]);
  });
});

describe("entering programming mode", () => {
  test("the enter string enters, and what is keyed behind it is no one's code any more", () => {
    const model = keypad();
    const door = doorOf(model, memoryFrom(model, "installer code 24680\nrelay 1 { 1 code 482 }"));
    expect(door.enters(acts("OK 24680 OK"))).toBe(true);
    expect(door.fires(acts("OK 24680 OK 482"))).toEqual([]);
    expect(door.blocksEnter).toBeUndefined();
  });
  test("a code inside it keeps the installer out where the last keys are heard", () => {
    const model = keypad("listens to the last keys");
    const blocked = memoryFrom(model, "installer code 24680\nrelay 1 { 1 code 468 }");
    expect(doorOf(model, blocked).blocksEnter).toEqual({ is: "slot", key: "1/1", half: "code" });
    expect(doorOf(model, blocked).enters(acts("OK 24680 OK"))).toBe(false);
    expect(doorOf(keypad(), blocked).blocksEnter).toBeUndefined();
  });
});

test("random memories: every stored thing is keyed, random keys are keyed, and a plain simulation agrees", { timeout: 120_000 }, () => {
  const count = { keyed: 0, fired: 0, asleep: 0 };
  fc.assert(
    fc.property(fc.noShrink(fc.gen()), gen => {
      const draw = drawFrom(gen);
      const drawn = drawnModel(draw);
      if (!drawn) return;
      const { model } = drawn;
      const typed: Act[] = [];
      let memory = model.factory;
      for (let i = 0; i < 40; i++) {
        const operation = drawnOperation(model, memory, draw);
        if (!/^(put|set all-relay|set length)/.test(operation.operation)) continue;
        typed.push(...actsIn(encode(model, operation, { installer: memory.installer ?? "" })));
        memory = replay(model, memory, typed.splice(0), true).memory;
      }
      const door = doorOf(model, memory);
      const plain = new SecondDoor(model, heldIn(memory));
      const fromOpens = new Map([...door.opens].map(([text, relays]) => [text.replaceAll(" ", ""), relays]));
      const awake = new Map<string, readonly string[]>();
      for (const { symbols, relays } of plain.strings) {
        const fired = plain.fires(symbols);
        expect(door.fires(symbols.map(actOf))).toEqual(fired);
        count.keyed++;
        if (relays.length === 0) {
          expect(door.enters(symbols.map(actOf))).toBe(door.blocksEnter === undefined);
        } else if (plain.actsOn(symbols)) awake.set(symbols.join(""), [...fired].sort());
        else count.asleep++;
      }
      expect(fromOpens).toEqual(awake);
      for (let i = 0; i < 20; i++) {
        const keys = Array.from({ length: draw.between(1, 14) }, () =>
          draw.one([...draw.one(plain.strings).symbols.slice(0, draw.between(1, 6)), draw.one([...model.keys])]),
        );
        const some = draw.oneIn(2) ? keys : [...keys.slice(0, 2), ...draw.one(plain.strings).symbols, ...keys.slice(2)];
        const fired = plain.fires(some);
        if (fired.length) count.fired++;
        expect(door.fires(some.map(actOf))).toEqual(fired);
      }
    }),
    { numRuns: runs(600) },
  );
  console.log(`${count.keyed} stored strings keyed, ${count.asleep} asleep, ${count.fired} random strings fired`);
  if (isWhole) expect(count.keyed).toBeGreaterThan(1_000);
  if (isWhole) expect(count.asleep).toBeGreaterThan(10);
  if (isWhole) expect(count.fired).toBeGreaterThan(1_000);
});

function actOf(symbol: string): Act {
  if (symbol.startsWith("tag:")) return { hand: "present tag", tag: symbol.slice(4) };
  return symbol.startsWith("[") ? { hand: symbol.slice(1, -1) } : { press: symbol };
}
