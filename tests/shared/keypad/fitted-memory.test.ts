/** A fitted record read as a memory: what it says, what does not fit the model, and when two memories are the same. */
import { describe, expect, test } from "vitest";
import { parse } from "../../../grammar/parse.ts";
import type { FittedDecl } from "../../../grammar/tree.ts";
import { memoryOf } from "../../../shared/keypad/fitted-memory.ts";
import { sameMemory } from "../../../shared/keypad/memory-equal.ts";
import type { Model } from "../../../shared/keypad/model.ts";
import { memoryFrom, modelOf } from "../../support/keypad.ts";

function keypad(slots: string): Model {
  const numbered = !/unnumbered|one per/.test(slots);
  return modelOf(`model held "Read from a record" {
    relays 1 = 1, 2 = 2, 1+2 = 3
    slots ${slots}
    codes 4 digits
    release 1s..9s, toggle = 0
    twins first fires
    setting "light" 0..2 7 {value:1} #
    enter * {installer} #
    put code 1 {relay} ${numbered ? "{slot}" : ""} {code} #
    put tag 2 {relay} ${numbered ? "{slot}" : ""} [present tag] #
    clear code 3 {code} #
    clear tag 4 [present tag] #
    open code {code}
    open tag [present tag]
    open both {code} [present tag]
  }`);
}

test("everything that a record can say", () => {
  const model = keypad("00..59, 90..92 all-relay per relay holds code or tag");
  const memory = memoryFrom(
    model,
    `model held
    installer code 0042
    all-relay 090 code 9182
    all-relay 91 unknown
    setting "light" 2
    relay 1 release 5s {
      1 code 0007
      02 tag 123,00334
      03 tag "red dot"
      04 tag 0x7B014F "blue fob"
      05 code 5591 or tag 334
      06 unknown
    }
    relay 2+1 release toggle { 01 code 4829 }`,
  );
  expect(memory.installer).toBe("0042");
  expect([...memory.allRelay]).toEqual([
    ["90", { number: 90, code: "9182" }],
    ["91", { number: 91, unknown: true }],
  ]);
  expect([...memory.settings]).toEqual([["light", 2]]);
  expect([...memory.releases]).toEqual([
    ["1", 5],
    ["1+2", "toggle"],
  ]);
  expect([...memory.slots.values()]).toEqual([
    { key: "1/1", fires: "1", number: 1, code: "0007" },
    { key: "1/2", fires: "1", number: 2, tag: "8061262" },
    { key: "1/3", fires: "1", number: 3, tag: '"red dot"' },
    { key: "1/4", fires: "1", number: 4, tag: "8061263" },
    { key: "1/5", fires: "1", number: 5, code: "5591", tag: "334" },
    { key: "1/6", fires: "1", number: 6, unknown: true },
    { key: "1+2/1", fires: "1+2", number: 1, code: "4829" },
  ]);
});

test("places of the other kinds of memory", () => {
  const keys = (model: Model, facts: string) => [...memoryFrom(model, facts).slots.keys()];
  expect(keys(keypad("1..500 shared"), "relay 1 { 7 code 4829 }\nrelay 1+2 { 08 code 5591 }")).toEqual(["7", "8"]);
  expect(keys(keypad("one per relay"), "relay 1 { code 4829 }\nrelay 2 { unknown }")).toEqual(["1", "2"]);
  expect(keys(keypad("9 unnumbered"), "relay 1 { code 4829\ntag 334\nunknown }\nrelay 2 { code 4829 }")).toEqual([
    "1:4829",
    "1:tag:334",
    "1:unknown 1",
    "2:4829",
  ]);
});

describe("what does not fit the model", () => {
  test.each([
    ["00..59 per relay", "relay 3 { 01 code 4829 }", ["relay-range: 3"]],
    ["00..59 per relay", "relay 1+3 { 01 code 4829 }", ["relay-range: 1+3"]],
    ["00..59 per relay", "relay 1 { 60 code 4829 }", ["slot-range: 60"]],
    ["00..09 codes, 10..19 tags per relay", "relay 1 { 10 code 4829\n09 tag 334 }", ["slot-kind: 10", "slot-kind: 09"]],
    ["00..59, 90..92 all-relay per relay", "relay 1 { 90 code 4829 }", ["slot-kind: 90"]],
    [
      "00..59, 90..92 all-relay per relay",
      "all-relay 01 code 4829\nall-relay 99 code 4829\nall-relay code 4829",
      ["slot-kind: 01", "slot-range: 99", "slot-number: all-relay"],
    ],
    ["00..59 per relay", "all-relay 90 code 4829", ["slot-number: 90"]],
    ["00..59 per relay", "relay 1 { code 4829 }", ["slot-number: code 4829"]],
    ["one per relay", "relay 1 { 01 code 4829 }", ["slot-number: 01"]],
    ["00..59 per relay", "relay 1 { 01 code 4829\n1 code 5591 }", ["slot-clash: 1 code 5591"]],
    ["00..59 per relay", "relay 1 { 01 code 4829 or tag 334 }", ["pair-mode: 01 code 4829 or tag 334"]],
    ["00..59 per relay holds code or tag", "relay 1 { 01 code 4829 with tag 334 }", ["pair-mode: 01 code 4829 with tag 334"]],
    ["00..59 per relay", "relay 1 { 01 code 48291 }", ["code-length: 48291"]],
    ["00..59 per relay", "installer code 48291", ["installer-length: 48291"]],
    ["00..59 per relay", "relay 1 { 01 tag 16777216 }", ["tag-range: 16777216"]],
    ["00..59 per relay", 'setting "lamp" 1', ['setting-unknown: "lamp"']],
    ["00..59 per relay", 'setting "light" 3', ["setting-range: 3"]],
    ["00..59 per relay", "relay 1 release 10s", ["release-range: release 10s"]],
  ])("%s: %s", (slots, facts, expected) => {
    const text = `fitted gate 2026-11-20 {\n${facts}\n}`;
    const { problems } = memoryOf(keypad(slots), (parse(text).tree.declarations[0] as FittedDecl).facts);
    expect(problems.map(({ kind, span }) => `${kind}: ${text.slice(span.start, span.end)}`)).toEqual(expected);
    // No code in the words.
    expect(problems.map(problem => problem.message).join()).not.toMatch(/4829|5591/);
  });
});

describe("the same memory", () => {
  const model = keypad("00..59 per relay");
  const one = "installer code 2468\nall-relay code 9182\nrelay 1 release 5s { 01 code 4829\n02 tag 334 }";

  test("whatever the order it was typed in", () => {
    const other = "all-relay code 9182\nrelay 1 release 5s { 02 tag 334\n01 code 4829 }\ninstaller code 2468";
    expect(sameMemory(memoryFrom(model, one), memoryFrom(model, other), model)).toBe(true);
  });
  test.each([
    one.replace("2468", "2469"),
    one.replace("all-relay code 9182\n", ""),
    one.replace("9182", "9183"),
    one.replace("release 5s", "release 6s"),
    one.replace("01 code", "03 code"),
    one.replace("4829", "4828"),
    one.replace("tag 334", "tag 335"),
    one.replace("tag 334", "unknown"),
    one.replace("relay 1 ", "relay 2 "),
    `${one}\nsetting "light" 1`,
  ])("not with %j", other => {
    expect(sameMemory(memoryFrom(model, one), memoryFrom(model, other), model)).toBe(false);
    expect(sameMemory(memoryFrom(model, other), memoryFrom(model, one), model)).toBe(false);
  });
  test("without numbers and where the first of twins fires, the order of twins counts, and no other", () => {
    const unnumbered = keypad("9 unnumbered");
    const first = memoryFrom(unnumbered, "relay 1 { code 4829 }\nrelay 2 { code 4829\ncode 5591 }");
    const second = memoryFrom(unnumbered, "relay 2 { code 5591\ncode 4829 }\nrelay 1 { code 4829 }");
    const third = memoryFrom(unnumbered, "relay 2 { code 5591 }\nrelay 1 { code 4829 }\nrelay 2 { code 4829 }");
    expect(sameMemory(first, second, unnumbered)).toBe(false);
    expect(sameMemory(first, second)).toBe(true);
    expect(sameMemory(first, third, unnumbered)).toBe(true);
  });
});
